// JSON that knows its place: every value carries its file and JSON pointer, and reports what is
// wrong with it there.
#pragma once

#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"

namespace tub {

/// A value in a JSON text. Copies are cheap and share the text's tree.
///
/// A reading member that finds something else than it expects adds a Diagnostic to the Problems
/// that the text was parsed with, and returns nothing; so all problems are found in one pass.
/// REQUIRES: the Problems outlive the nodes.
class Node {
 public:
  struct Member;

  /// Parses a text strictly: duplicate names are problems, each at its place. Names and texts are
  /// composed (`composed`), so that what looks alike is alike.
  ///
  /// Throws: Error with line and column if the text is not JSON or not UTF-8, holds a NUL, or is
  ///         nested deeper than 100 levels. The time that it takes grows as the text does.
  static Node parse(std::string_view text, const std::string& file, Problems& problems);

  /// A node over a tree that was made elsewhere (an overlay of two files, say).
  static Node over(std::shared_ptr<const nlohmann::ordered_json> tree, const std::string& file,
                   Problems& problems);

  bool is_object() const;
  bool is_array() const;
  bool is_text() const;
  bool is_number() const;
  bool is_null() const;

  /// The member of that name; nothing, and no problem, if there is none.
  std::optional<Node> find(std::string_view name) const;
  /// The member of that name; a problem if there is none.
  std::optional<Node> require(std::string_view name) const;
  /// All members in the order of the text; a problem if this is no object.
  std::vector<Member> members() const;
  /// All elements; a problem if this is no array.
  std::vector<Node> items() const;

  std::optional<std::string> text() const;
  std::optional<double> number() const;
  std::optional<double> number(double low, double high) const;
  std::optional<int> whole(int low, int high) const;
  std::optional<bool> boolean() const;

  /// One of the known names; a problem with the nearest one if it is another.
  std::optional<std::string> one_of(std::span<const std::string> known) const;

  /// A problem for each member whose name is not known, with the nearest known name.
  void allow_only(std::span<const std::string> known) const;

  /// A problem of this member, whose name is not known, with the nearest known name.
  void unknown(std::string_view name, std::span<const std::string> known) const;

  /// Adds a problem at this place.
  void problem(std::string message, std::string help = "") const;

  /// "deck.json: /water/ph"
  std::string where() const;
  const std::string& pointer() const { return pointer_; }
  /// What stands here, as a person would name it in a message: `74`, `"abc"`, `a list`.
  std::string shown() const;
  const nlohmann::ordered_json& json() const { return *value_; }
  Problems& problems() const { return *problems_; }

 private:
  Node(std::shared_ptr<const nlohmann::ordered_json> tree, const nlohmann::ordered_json* value,
       std::shared_ptr<const std::string> file, std::string pointer, Problems* problems);
  Node child(const nlohmann::ordered_json& value, std::string_view step) const;

  std::shared_ptr<const nlohmann::ordered_json> tree_;
  const nlohmann::ordered_json* value_;
  std::shared_ptr<const std::string> file_;
  std::string pointer_;
  Problems* problems_;
};

struct Node::Member {
  std::string name;
  Node value;
};

/// A JSON pointer step with '~' and '/' escaped (RFC 6901), for messages: a long name is shortened.
std::string pointer_step(std::string_view name);

}  // namespace tub
