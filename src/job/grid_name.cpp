#include "job/grid_name.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "base/text.h"

namespace tub {
namespace {

bool is_count(std::string_view text) {
  return !text.empty() && text.size() <= 3 &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

bool is_pair(const std::string& text) {
  const std::vector<std::string> parts = split(text, 'x');
  return parts.size() == 2 && is_count(parts.front()) && is_count(parts.back());
}

}  // namespace

bool is_grid_name(std::string_view name) {
  constexpr std::array<std::string_view, 3> papers = {"a4", "letter", "a3"};
  const std::vector<std::string> parts = split(name, '_');
  return parts.size() == 3 &&
         std::find(papers.begin(), papers.end(), parts.front()) != papers.end() &&
         is_pair(parts.at(1)) && is_pair(parts.back());
}

}  // namespace tub
