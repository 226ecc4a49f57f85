// How one number came about: a value, the equation behind it, its inputs, and so on down to what a
// test slip, the job, a row of data or a definition says.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "planning/tables/provenance.h"

namespace tub::why {

/// What stands at the end of a chain.
enum class Ground { test_slip, job, data_row, constant };

/// "test_slip", "job", "data_row" or "constant".
std::string name_of(Ground ground);

/// Where a number that nothing is computed from stands, and whose it is.
struct Origin {
  Ground ground = Ground::constant;
  std::string where{};               ///< pointer in the job, or file and row; empty for a constant
  std::string as_written{};          ///< "5 °dH": the text of a job or slip
  std::string method{};              ///< of a test slip: "drop_kit"
  std::optional<double> division{};  ///< of that method
  std::optional<double> half_width{};  ///< 90 %, at that value
  std::string test_unit{};             ///< of both: the reading's own, whatever was written
  std::optional<Provenance> source{};  ///< of a row or a constant, or of the method's figures
};

/// An input of an equation, by the node that explains it.
struct Input {
  std::string name;               ///< its part in the equation: "volume"
  std::string node;               ///< identifier of a node of the chain
  std::optional<double> share{};  ///< of all that moves the value, where only the main ones stand
};

/// One number. The identifier of a number of the plan is its JSON pointer; others have a pointer
/// and '#', or the name of what they are.
struct Node {
  std::string id;
  std::string name;  ///< what it is, in words with underscores: "unrounded_amount"
  double value = 0;
  std::string unit;
  std::string equation;  ///< a row of equations.h
  std::vector<Input> inputs;
  std::optional<Origin> origin{};
  std::vector<std::string>
      beside{};  ///< what moves it by less than a hundredth: nodes, unexplained
};

/// A number and everything that it rests on, each node once.
class Chain {
 public:
  const Node& root() const { return nodes_.at(root_); }
  const Node& at(const std::string& id) const { return nodes_.at(id); }
  bool has(const std::string& id) const { return nodes_.contains(id); }
  const std::map<std::string, Node>& nodes() const { return nodes_; }

  void add(Node node) { nodes_.insert_or_assign(node.id, std::move(node)); }
  void start_at(std::string id) { root_ = std::move(id); }
  /// Identifiers from the root on, nearest first; each once, inputs after what they go into.
  std::vector<std::string> in_order() const;

 private:
  std::string root_;
  std::map<std::string, Node> nodes_;
};

}  // namespace tub::why
