#include "sheets/cabinet/shown_top_ups.h"

#include <cassert>
#include <cstddef>

namespace tub::sheets {

bool is_sanitizer(Reading reading) {
  return reading == Reading::free_chlorine || reading == Reading::total_bromine;
}

std::vector<TopUp> shown_top_ups(const TopUpReading& reading, const TopUpSide& side) {
  constexpr std::size_t most_lines = 2;
  assert(&side == &reading.low || &side == &reading.high);
  std::vector<TopUp> rows;
  for (const TopUp& row : side.rows) {
    const bool repeats = !rows.empty() && row.is_most && rows.back().is_most;
    if (!repeats) rows.push_back(row);
  }
  const std::size_t most = reading.reading == Reading::calcium_hardness ? 1 : most_lines;
  if (rows.size() <= most) return rows;
  if (&side == &reading.low && is_sanitizer(reading.reading)) {
    return {rows.end() - static_cast<std::ptrdiff_t>(most), rows.end()};
  }
  rows.resize(most);
  return rows;
}

}  // namespace tub::sheets
