#include "why/chain.h"

#include <set>

namespace tub::why {

std::string name_of(Ground ground) {
  switch (ground) {
    case Ground::test_slip:
      return "test_slip";
    case Ground::job:
      return "job";
    case Ground::data_row:
      return "data_row";
    default:
      return "constant";
  }
}

std::vector<std::string> Chain::in_order() const {
  std::vector<std::string> order = {root_};
  std::set<std::string> seen = {root_};
  for (std::size_t i = 0; i < order.size(); ++i) {
    for (const Input& input : at(order[i]).inputs) {
      if (seen.insert(input.node).second) order.push_back(input.node);
    }
  }
  return order;
}

}  // namespace tub::why
