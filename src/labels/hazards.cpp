#include "labels/hazards.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest.h"
#include "base/text.h"

namespace tub::labels {
namespace {

bool holds(std::span<const std::string> names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

void require_known(std::span<const std::string> codes, const HazardTable& table) {
  Names known = table.supplements;
  for (const LabelHazard& hazard : table.hazards) known.push_back(hazard.code);
  Problems problems;
  for (const std::string& code : codes) {
    if (holds(known, code)) continue;
    problems.add({.message = fmt::format("the hazard statement {} is not one that a label of this "
                                         "version can show",
                                         code),
                  .where = {},
                  .trace = {"choosing what a container label says"},
                  .help = suggestion(code, known)});
  }
  problems.throw_if_any();
}

/// The hazards of the codes, in the table's order, without what others cover.
std::vector<const LabelHazard*> hazards_of(std::span<const std::string> codes,
                                           const HazardTable& table, const LabelRules& rules) {
  std::vector<const LabelHazard*> found;
  for (const LabelHazard& hazard : table.hazards) {
    const bool belongs = hazard.is_in_hazcom || rules.has_environment;
    if (belongs && holds(codes, hazard.code)) found.push_back(&hazard);
  }
  const auto is_covered = [&found](const LabelHazard* hazard) {
    return std::any_of(found.begin(), found.end(), [hazard](const LabelHazard* other) {
      return holds(other->covers, hazard->code);
    });
  };
  std::vector<const LabelHazard*> kept;
  std::copy_if(found.begin(), found.end(), std::back_inserter(kept),
               [&](const LabelHazard* hazard) { return !is_covered(hazard); });
  return kept;
}

/// True if a hazard's exclamation mark is made unnecessary. Source: CLP Article 26(1)(b) to (d)
bool is_mark_dropped(const LabelHazard& hazard, const Names& pictograms, bool has_asthma) {
  if (hazard.pictogram != "GHS07") return false;
  if (holds(pictograms, "GHS06")) return true;
  const bool is_irritation = hazard.irritation == LabelHazard::Irritation::skin_or_eye;
  if (holds(pictograms, "GHS05") && is_irritation) return true;
  return has_asthma && hazard.irritation != LabelHazard::Irritation::none;
}

Names pictograms_of(const std::vector<const LabelHazard*>& hazards) {
  Names all;
  bool has_asthma = false;
  for (const LabelHazard* hazard : hazards) {
    all.push_back(hazard->pictogram);
    has_asthma = has_asthma || hazard->code == "H334";
  }
  Names kept;
  for (const LabelHazard* hazard : hazards) {
    if (hazard->pictogram.empty() || holds(kept, hazard->pictogram)) continue;
    if (!is_mark_dropped(*hazard, all, has_asthma)) kept.push_back(hazard->pictogram);
  }
  return kept;
}

/// A statement and the least of its weights over all hazards.
std::map<std::string, int> weighed(const std::vector<const LabelHazard*>& hazards,
                                   const HazardTable& table) {
  std::map<std::string, int> weights;
  for (const LabelHazard* hazard : hazards) {
    for (const auto& [statement, weight] : hazard->precautions) {
      const auto [place, is_new] = weights.try_emplace(statement, weight);
      if (!is_new) place->second = std::min(place->second, weight);
    }
  }
  for (const PrecautionPrecedence& rule : table.precedence) {
    if (!weights.contains(rule.statement)) continue;
    for (const std::string& dropped : rule.drops) weights.erase(dropped);
  }
  return weights;
}

/// Those of weight 1, then the weightiest others while there are fewer than the most; rising.
Names precautions_of(const std::vector<const LabelHazard*>& hazards, const HazardTable& table) {
  const std::map<std::string, int> weights = weighed(hazards, table);
  std::vector<std::pair<int, std::string>> ranked;
  for (const auto& [statement, weight] : weights) ranked.emplace_back(weight, statement);
  std::sort(ranked.begin(), ranked.end());
  Names chosen;
  for (const auto& [weight, statement] : ranked) {
    const bool has_room = chosen.size() < static_cast<std::size_t>(table.most_precautions);
    if (weight == 1 || has_room) chosen.push_back(statement);
  }
  std::sort(chosen.begin(), chosen.end());
  return chosen;
}

Names supplements_of(std::span<const std::string> codes, const HazardTable& table,
                     const LabelRules& rules, double active_chlorine_percent) {
  Names asked(codes.begin(), codes.end());
  for (const LabelSupplement& supplement : rules.supplements) {
    if (active_chlorine_percent > supplement.active_chlorine_above_percent) {
      asked.push_back(supplement.statement);
    }
  }
  Names found;
  std::copy_if(table.supplements.begin(), table.supplements.end(), std::back_inserter(found),
               [&asked](const std::string& code) { return holds(asked, code); });
  return found;
}

}  // namespace

const LabelHazard* HazardTable::find(std::string_view code) const {
  const auto found = std::find_if(hazards.begin(), hazards.end(),
                                  [code](const LabelHazard& row) { return row.code == code; });
  return found == hazards.end() ? nullptr : &*found;
}

LabelElements label_elements(std::span<const std::string> codes, const HazardTable& table,
                             const LabelRules& rules, double active_chlorine_percent) {
  require_known(codes, table);
  const std::vector<const LabelHazard*> hazards = hazards_of(codes, table, rules);
  LabelElements elements;
  elements.pictograms = pictograms_of(hazards);
  for (const LabelHazard* hazard : hazards) {
    elements.signal = std::max(elements.signal, hazard->signal);
    elements.hazards.push_back(hazard->code);
  }
  elements.supplements = supplements_of(codes, table, rules, active_chlorine_percent);
  elements.precautions = precautions_of(hazards, table);
  return elements;
}

ClosureNeeds closure_needs(std::span<const std::string> codes, const HazardTable& table) {
  ClosureNeeds needs;
  for (const std::string& code : codes) {
    const LabelHazard* const hazard = table.find(code);
    if (hazard == nullptr) continue;
    needs.tactile_mark = needs.tactile_mark || hazard->has_tactile_mark;
    needs.child_resistant = needs.child_resistant || hazard->is_child_resistant;
  }
  return needs;
}

std::vector<std::string> may_be_left_out(std::span<const std::string> codes,
                                         const HazardTable& table, const LabelRules& rules,
                                         double litres) {
  Names result;
  if (litres * 1000 > rules.small_package_ml) return result;
  for (const std::string& code : codes) {
    const LabelHazard* const hazard = table.find(code);
    if (hazard != nullptr && hazard->small_package != LabelHazard::SmallPackage::needed) {
      result.push_back(code);
    }
  }
  return result;
}

}  // namespace tub::labels
