#include "why/equations.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.h"
#include "planning/pours/divisions.h"

namespace tub::why {
namespace {

using Terms = std::span<const Term>;

double sum(Terms terms) {
  double result = 0;
  for (const auto& [name, value] : terms) result += value;
  return result;
}

double difference(Terms terms) { return terms.front().second - sum(terms.subspan(1)); }

double product(Terms terms) {
  double result = 1;
  for (const auto& [name, value] : terms) result *= value;
  return result;
}

double quotient(Terms terms) { return terms.front().second / product(terms.subspan(1)); }

bool is_less(const Term& a, const Term& b) { return a.second < b.second; }
double smallest(Terms terms) {
  return std::min_element(terms.begin(), terms.end(), is_less)->second;
}
double largest(Terms terms) {
  return std::max_element(terms.begin(), terms.end(), is_less)->second;
}

double same(Terms terms) { return terms.front().second; }
double mean(Terms terms) { return sum(terms) / static_cast<double>(terms.size()); }

double mix(Terms terms) {
  const double share = terms[0].second;
  return (1 - share) * terms[1].second + share * terms[2].second;
}

double root_sum_of_squares(Terms terms) {
  double squares = 0;
  for (const auto& [name, value] : terms) squares += value * value;
  return std::sqrt(squares);
}

double down(Terms terms) { return division_down(terms[0].second, terms[1].second); }
double up(Terms terms) { return division_up(terms[0].second, terms[1].second); }
double nearest(Terms terms) { return division_nearest(terms[0].second, terms[1].second); }

double milligrams_per_litre(Terms terms) { return 1000 * terms[0].second / terms[1].second; }
double amount_for(Terms terms) { return terms[0].second * terms[1].second / terms[2].second; }
double logarithm_of_ratio(Terms terms) { return std::log(terms[0].second / terms[1].second); }

double halvings(Terms terms) {
  return terms[0].second * std::max(0.0, std::log2(terms[1].second / terms[2].second));
}

/// The terms of chemistry's equation 1, by the name of their coefficient.
double log_k(Terms terms) {
  const double t = terms.front().second;
  double result = 0;
  for (const auto& [name, value] : terms.subspan(1)) {
    const std::array factors = {1.0, t, 1 / t, std::log10(t), 1 / (t * t), t * t};
    result += value * factors.at(static_cast<std::size_t>(name.front() - 'a'));
  }
  return result;
}

constexpr std::array rows = {
    Equation{"given", "", "as it stands there"},
    Equation{"same", "", "{0}", same},
    Equation{"sum", " + ", "", sum},
    Equation{"difference", " - ", "", difference},
    Equation{"product", " × ", "", product},
    Equation{"quotient", " / ", "", quotient},
    Equation{"smallest", "", "the smallest of its inputs", smallest},
    Equation{"largest", "", "the largest of its inputs", largest},
    Equation{"mean", "", "the mean of its inputs", mean},
    Equation{"mix", "", "(1 - {0}) × {1} + {0} × {2}", mix},
    Equation{"root_sum_of_squares", "", "the root of the sum of the squares", root_sum_of_squares},
    Equation{"round_down_to", "", "{0}, down to a whole {1}", down},
    Equation{"round_up_to", "", "{0}, up to a whole {1}", up},
    Equation{"round_to", "", "{0}, to the nearest whole {1}", nearest},
    Equation{"milligrams_per_litre", "", "1000 × {0} / {1}", milligrams_per_litre},
    Equation{"amount_for", "", "{0} × {1} / {2}", amount_for},
    Equation{"logarithm_of_ratio", "", "ln({0} / {1})", logarithm_of_ratio},
    Equation{"halvings", "", "{0} × log2({1} / {2})", halvings},
    Equation{"log_k", "", "a + b T + c/T + d log10 T + e/T² + f T², T in kelvin", log_k},
    // Models.
    Equation{"equilibrium", "", "the species of this water, by the mass balances and constants"},
    Equation{"carbon_of_ph", "", "the inorganic carbon that gives this pH at this alkalinity"},
    Equation{"carbon_in_air", "", "the inorganic carbon in equilibrium with this carbon dioxide"},
    Equation{"charge_balance", "", "what makes positive and negative charges equal"},
    Equation{"oxidation", "", "free oxidant turns bromide to bromine, mole for mole"},
    Equation{"root_of", "", "the amount with which the final water comes to {0}"},
    Equation{"solved", "", "as the plan was solved, before anything was rounded"},
    Equation{"kept", "", "where the plan aimed before the retest"},
    Equation{"within_room", "", "as far as the pH window, a limit or the other reading allows"},
    Equation{"measured_down", "", "{0}, by a whole {1}, within the limits of a pour"},
    Equation{"largest_within", "", "the largest whose chance to pass the edge keeps the bound"},
    Equation{"effect_of", "", "half the change when {0} lies at both ends of its 90 % range"},
    Equation{"quantile", "", "the 5 % or 95 % point of {0}, all errors together"},
    Equation{"quantile_of_draws", "",
             "the 5 % or 95 % point of {0} in whole waters, drawn from all errors together"},
    Equation{"chance_beyond", "", "the share of {0}, all errors together, that lies beyond {1}"},
    Equation{"interval_reach", "", "from the value to the end of its 90 % range"},
    Equation{"carried_back", "", "the reading here from which the later steps lead to {0}"},
    Equation{"expected_end", "", "{0} and the test's own error, rounded outward to its steps"},
    Equation{"best_of_shares", "", "of all shares in whole steps, that of the best plan"},
    Equation{"plan_again", "", "found by planning again with what is missing"},
    Equation{"judged", "", "the likeliest by all readings and what was planned, together"},
    Equation{"forecast", "", "what the plan, moved by the readings before, foretells"},
    Equation{"deviations", "", "how far {0} is from what was expected, in standard deviations"},
    Equation{"waits", "", "{0}, longer until partners are far enough apart"},
    Equation{"tablets", "",
             "the fewest whole tablets that dissolve so much in days that can be waited"},
    Equation{"tablets_that_keep_up", "",
             "the fewest whole tablets that make the bromine that is used of {0} in a day"},
    Equation{"bromine_of_tablets", "", "what {0} make in a day, their chlorine's bromine included"},
    Equation{"counted", "", "counted"},
};

std::string spoken(std::string_view name) { return replaced(std::string(name), "_", " "); }

}  // namespace

std::span<const Equation> all_equations() { return rows; }

const Equation& equation(std::string_view code) {
  return *std::find_if(rows.begin(), rows.end(),
                       [&](const Equation& row) { return row.code == code; });
}

std::string formula(const Node& node) {
  const Equation& row = equation(node.equation);
  if (row.between.empty()) {
    std::string text(row.says);
    for (std::size_t i = 0; i < node.inputs.size(); ++i) {
      text = replaced(text, fmt::format("{{{}}}", i), spoken(node.inputs[i].name));
    }
    return text;
  }
  std::string text;
  for (const Input& input : node.inputs) {
    text += (text.empty() ? "" : std::string(row.between)) + spoken(input.name);
  }
  return text;
}

std::optional<double> worked_out(const Node& node, const Chain& chain) {
  const Equation& row = equation(node.equation);
  if (row.value == nullptr) return std::nullopt;
  std::vector<Term> terms;
  for (const Input& input : node.inputs) terms.emplace_back(input.name, chain.at(input.node).value);
  return row.value(terms);
}

bool agrees(double stated, double found) {
  return std::abs(stated - found) <= 1e-9 * std::max({1.0, std::abs(stated), std::abs(found)});
}

}  // namespace tub::why
