// Walking a template: placeholders, `each` and `when`, which every block is written with.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/node.h"
#include "document/words.h"
#include "sheets/template/facts.h"
#include "sheets/template/messages.h"
#include "sheets/template/phrase.h"

namespace tub::sheets {

/// Fills nodes of a template from facts. Without messages it checks: `say.` placeholders are noted
/// instead of said, and texts that a fact gives are not looked up.
class Composer {
 public:
  /// turn: items whose `give_up` is a number up to it are left out
  Composer(const Facts& facts, const Messages* messages, int turn = 0);

  bool is_checking() const { return messages_ == nullptr; }

  /// The words of a text node; what is wrong with it is a problem at its place.
  Words words(const Node& node);
  /// The words of a member; none if there is no such member.
  Words words(const Node& object, std::string_view member);
  std::string text(const Node& object, std::string_view member);
  /// A number, or the number that a placeholder names.
  std::optional<double> number(const Node& object, std::string_view member);
  /// `true`, `false` or `{"when": "name"}`; false if there is no such member.
  bool flag(const Node& object, std::string_view member);
  /// A list of words; an item is a text, or `{"text": …}` with `each` and `when`.
  std::vector<Words> words_list(const Node& object, std::string_view member);
  /// Calls `visit` for every item of a list that is there, once for each element it repeats over.
  void items(const Node& object, std::string_view member,
             const std::function<void(const Node&)>& visit);
  void items(const Node& list, const std::function<void(const Node&)>& visit);

  /// A problem for each member that is neither known nor a control (`each`, `when`, `give_up`,
  /// `from_turn`).
  static void allow_only(const Node& object, std::vector<std::string> known);

  /// The largest `give_up` met so far.
  int last_turn() const { return last_turn_; }

  /// Messages said so far while checking: keys, with the names that were in scope each time.
  const std::map<std::string, std::set<std::string>>& said() const { return said_; }

 private:
  struct Found {
    const Facts* facts = nullptr;
    const FactRow* row = nullptr;
  };
  std::optional<Found> find(const Node& node, std::string_view name, FactRow::Kind kind);
  std::optional<Found> find_any(std::string_view name) const;
  std::vector<std::string> names_in_scope() const;
  Words placeholder(const Node& node, const std::string& name);
  Words message(const Node& node, const std::string& key);
  Words fill(const Node& node, const Phrase& phrase);
  bool is_wanted(const Node& item);
  bool is_given_up(const Node& item);
  bool is_its_turn(const Node& item) const;
  bool is_fact_present(const Node& item) const;
  void visit_wanted(const Node& item, const std::function<void(const Node&)>& visit);
  void item(const Node& item, const std::function<void(const Node&)>& visit);
  void note_message(const std::string& key);

  std::vector<const Facts*> scope_;
  const Messages* messages_;
  int turn_;
  int last_turn_ = 0;
  std::map<std::string, std::set<std::string>> said_;
};

}  // namespace tub::sheets
