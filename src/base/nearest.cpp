#include "base/nearest.h"

#include <algorithm>
#include <cctype>
#include <vector>

namespace tub {
namespace {

std::string folded(std::string_view text) {
  std::string result;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    result += c == '-' || c == ' ' ? '_' : static_cast<char>(std::tolower(byte));
  }
  return result;
}

/// False where the lengths alone tell two texts further apart: a name of a megabyte is compared
/// with none.
bool may_be_within(std::size_t changes, std::string_view one, std::string_view other) {
  const std::size_t apart = std::max(one.size(), other.size()) - std::min(one.size(), other.size());
  return apart < changes;
}

}  // namespace

std::size_t edit_distance(std::string_view from, std::string_view to) {
  std::vector<std::vector<std::size_t>> cost(from.size() + 1,
                                             std::vector<std::size_t>(to.size() + 1));
  for (std::size_t i = 0; i <= from.size(); ++i) {
    for (std::size_t j = 0; j <= to.size(); ++j) {
      if (i == 0 || j == 0) {
        cost[i][j] = i + j;
        continue;
      }
      const std::size_t change = from[i - 1] == to[j - 1] ? 0 : 1;
      cost[i][j] = std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1, cost[i - 1][j - 1] + change});
      const bool swapped = i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1];
      if (swapped) cost[i][j] = std::min(cost[i][j], cost[i - 2][j - 2] + 1);
    }
  }
  return cost[from.size()][to.size()];
}

std::string nearest(std::string_view found, std::span<const std::string> known) {
  const std::string wanted = folded(found);
  std::string best;
  std::size_t least = std::max<std::size_t>(2, found.size() / 3) + 1;
  for (const std::string& name : known) {
    const std::string candidate = folded(name);
    const bool holds = wanted.size() >= 4 && candidate.find(wanted) != std::string::npos;
    if (!holds && !may_be_within(std::min(least, name.size()), wanted, candidate)) continue;
    const std::size_t distance = holds ? 1 : edit_distance(wanted, candidate);
    if (distance < least && distance < name.size()) {
      least = distance;
      best = name;
    }
  }
  return best;
}

std::string suggestion(std::string_view found, std::span<const std::string> known) {
  const std::string near = nearest(found, known);
  if (!near.empty()) return "did you mean " + near + "?";
  if (known.empty()) return "";
  std::string list = "known are: ";
  for (std::size_t i = 0; i < known.size(); ++i) list += (i ? ", " : "") + known[i];
  return list;
}

}  // namespace tub
