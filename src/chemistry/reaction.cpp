#include "chemistry/reaction.h"

#include <fmt/format.h>

#include <cmath>

#include "base/error.h"
#include "base/text.h"

namespace tub::chemistry {
namespace {

void read_side(std::string_view side, double sign, Reaction& reaction) {
  for (const std::string& part : split(replaced(side, " + ", "\n"), '\n')) {
    const std::string_view term = trimmed(part);
    const auto blank = term.find(' ');
    const bool counted = blank != std::string_view::npos;
    const double number = counted ? to_number(term.substr(0, blank)).value_or(NAN) : 1;
    reaction.terms.push_back({std::string(counted ? term.substr(blank + 1) : term), sign * number});
  }
}

void check_balance(std::string_view text, const Reaction& reaction, const Elements& elements) {
  std::map<std::string, double> sum;
  for (const Term& term : reaction.terms) {
    const Atoms atoms = atoms_of(term.formula, elements);
    for (const auto& [symbol, count] : atoms.count) sum[symbol] += count * term.number;
    sum["charge"] += atoms.charge * term.number;
  }
  for (const auto& [what, difference] : sum)
    if (!(std::abs(difference) < 1e-9))
      throw Error(Diagnostic{
          fmt::format("the reaction \"{}\" does not balance in {}: {:+g}", text, what, difference),
          "",
          {},
          "mend the reaction"});
}

}  // namespace

Reaction reaction_of(std::string_view text, const Elements& elements) {
  const auto equals = text.find(" = ");
  if (equals == std::string_view::npos)
    throw Error(Diagnostic{fmt::format("the reaction \"{}\" has no \" = \"", text),
                           "",
                           {},
                           "write it as HCO3- = H+ + CO3-2"});
  Reaction reaction;
  read_side(text.substr(0, equals), -1, reaction);
  read_side(text.substr(equals + 3), 1, reaction);
  check_balance(text, reaction, elements);
  return reaction;
}

}  // namespace tub::chemistry
