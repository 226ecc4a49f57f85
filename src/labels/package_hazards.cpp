#include "labels/package_hazards.h"

#include <array>
#include <optional>

namespace tub::labels {
namespace {

struct PictogramRow {
  std::string_view code;
  std::string_view name;
};
constexpr std::array pictograms = {
    PictogramRow{"GHS03", "ghs_oxidiser"}, PictogramRow{"GHS05", "ghs_corrosion"},
    PictogramRow{"GHS06", "ghs_toxic"},    PictogramRow{"GHS07", "ghs_exclamation"},
    PictogramRow{"GHS08", "ghs_health"},   PictogramRow{"GHS09", "ghs_environment"},
};

std::optional<PackageStrength> strength_of(const Product& product) {
  if (product.strengths.empty() || product.parts.empty()) return std::nullopt;
  constexpr double percent = 100;
  return PackageStrength{product.strength, product.strengths.front().name,
                         product.parts.front().mass_fraction * percent};
}

}  // namespace

std::string_view pictogram_for(std::string_view ghs_code) {
  for (const PictogramRow& row : pictograms) {
    if (row.code == ghs_code) return row.name;
  }
  return "";
}

double active_chlorine_percent(const Product& product) {
  for (const Product::StrengthBasis& basis : product.strengths) {
    const bool is_chlorine = basis.name.find("as Cl2") != std::string::npos;
    if (!is_chlorine || !product.in_group("chlorine") || product.parts.empty()) continue;
    return product.parts.front().mass_fraction * basis.per_mass_fraction;
  }
  return 0;
}

std::vector<std::string> codes_of(const ShelfItem& item, bool has_own_statements,
                                  bool has_own_strength, const LabelTables& tables) {
  if (has_own_statements) return item.product.hazard_statements;
  const auto strength = has_own_strength ? strength_of(item.product) : std::nullopt;
  return harmonised_codes(tables.substances, item.product.id, strength);
}

}  // namespace tub::labels
