// Chemical formulas: which atoms, what mass, what charge.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "base/modules.h"

namespace tub::chemistry {

/// Standard atomic weights by symbol, g/mol. "Cy" is the cyanurate ring C3N3O3.
using Elements = std::map<std::string, double, std::less<>>;

/// The atoms of one formula unit, and its charge.
struct Atoms {
  std::map<std::string, double, std::less<>> count;
  int charge = 0;
};

/// Reads "Ca(OCl)2", "CaCl2:2H2O", "2KHSO5:KHSO4:K2SO4", "CO3-2", "H+".
///
/// Throws: Error at a character that no formula has, or a symbol that `elements` lacks
Atoms atoms_of(std::string_view formula, const Elements& elements);

/// g/mol.
double molar_mass(const Atoms& atoms, const Elements& elements);

}  // namespace tub::chemistry
