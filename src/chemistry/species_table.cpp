#include "chemistry/species_table.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.h"
#include "base/nearest.h"

namespace tub::chemistry {
namespace {

[[noreturn]] void throw_missing(std::string_view kind, std::string_view name) {
  throw Error(Diagnostic{fmt::format("the species file has no {} \"{}\"", kind, name),
                         "",
                         {},
                         "add its row to the file",
                         Fault::machine});
}

}  // namespace

double Source::spread_at(Temperature temperature) const {
  const double at_c = temperature.celsius();
  return spread + spread_per_c * std::max({0.0, low_c - at_c, at_c - high_c});
}

void Composition::add(Component component, int number) {
  const auto part = std::find_if(parts_.begin(), parts_.begin() + size_,
                                 [&](const Part& p) { return p.component == component; });
  if (part != parts_.begin() + size_) {
    part->number += number;
  } else if (size_ < parts_.size()) {
    parts_[size_++] = {component, number};
  } else {
    throw Error(Diagnostic{"the species has more than four components", "", {}, ""});
  }
}

int Composition::of(Component component) const {
  const auto part =
      std::find_if(begin(), end(), [&](const Part& p) { return p.component == component; });
  return part == end() ? 0 : part->number;
}

std::size_t SpeciesTable::species_index(std::string_view name) const {
  const auto found = std::find_if(species_.begin(), species_.end(),
                                  [&](const Species& s) { return s.name == name; });
  if (found == species_.end()) throw_missing("species", name);
  return static_cast<std::size_t>(found - species_.begin());
}

const Phase& SpeciesTable::phase(std::string_view name) const {
  const auto found =
      std::find_if(phases_.begin(), phases_.end(), [&](const Phase& p) { return p.name == name; });
  if (found == phases_.end()) throw_missing("phase", name);
  return *found;
}

const Compound& SpeciesTable::compound(std::string_view formula) const {
  const auto found = std::find_if(compounds_.begin(), compounds_.end(),
                                  [&](const Compound& c) { return c.formula == formula; });
  if (found != compounds_.end()) return *found;
  std::vector<std::string> known;
  for (const Compound& c : compounds_) known.push_back(c.formula);
  throw Error(Diagnostic{fmt::format("the compound \"{}\" is not known", formula),
                         "",
                         {},
                         suggestion(formula, known)});
}

}  // namespace tub::chemistry
