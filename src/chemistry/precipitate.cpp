#include "chemistry/precipitate.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.h"
#include "base/text.h"
#include "chemistry/root.h"

namespace tub::chemistry {
namespace {

Water without(const Water& water, double moles) {
  Water result = water;
  result.totals[Component::calcium] -= moles;
  result.totals[Component::carbonate] -= moles;
  result.totals[Component::alkalinity] -= 2 * moles;
  return result;
}

[[noreturn]] void refuse(std::string message, std::string help) {
  throw Error(Diagnostic{std::move(message), "", {}, std::move(help)});
}

}  // namespace

Precipitation precipitate(const Water& water, double wanted, const SpeciesTable& table) {
  const double most =
      std::min(water.totals[Component::calcium], water.totals[Component::carbonate]);
  if (!(most > 0))
    refuse("nothing can precipitate: the water has no calcium or no carbonate",
           "leave the step out");
  const auto excess = [&](double moles) {
    return saturation_index(without(water, moles), table) - wanted;
  };
  const Sample none = {0, excess(0)};
  if (none.y < 0)
    refuse(fmt::format("nothing precipitates: the saturation index is {}, already below {}",
                       fixed(none.y + wanted, 3), shortest(wanted)),
           "ask for an index below the water's own");
  const double all = most * (1 - 1e-9);
  const Sample root = find_root(excess, none, {all, excess(all)}, 1e-14 * most);
  return {without(water, root.x), root.x};
}

}  // namespace tub::chemistry
