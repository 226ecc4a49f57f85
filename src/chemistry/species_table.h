// Everything that is known of species, minerals, gases and compounds, as rows read from a data
// file.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/interval.h"
#include "chemistry/formula.h"
#include "chemistry/log_k.h"
#include "chemistry/water.h"

namespace tub::chemistry {

/// The most species that a table may have, so that a speciation needs no allocation.
inline constexpr std::size_t max_species = 64;

/// Where a number is from and how far it holds.
struct Source {
  std::string text;  ///< author, year, journal; or "assumption: …"
  double low_c = 0;  ///< range of temperature, °C
  double high_c = 0;
  double spread = 0;         ///< 90 % half-width of log10 K, 0 where none is stated
  double spread_per_c = 0;   ///< added to it for each degree outside the range
  bool from_memory = false;  ///< not read in a stored text: check it before quoting it

  /// The half-width at a temperature.
  double spread_at(Temperature temperature) const;
};

/// How log10 of a species' activity coefficient goes with ionic strength (equations 3 to 5).
struct ActivityModel {
  enum class Kind { ion_size, davies, neutral };
  Kind kind = Kind::davies;
  double size_angstrom = 0;  ///< of `ion_size`
  double slope = 0;          ///< b of `ion_size`, or the factor of I of `neutral`, kg/mol
};

/// How much of a component is in one mole of a species. That of alkalinity is the number of H+
/// taken up from the masters, so -1 for OH-.
struct Part {
  Component component = Component::alkalinity;
  int number = 0;
};

/// What a species is made of, in the components' masters; at most four of them.
class Composition {
 public:
  /// Throws: Error if a fifth component is added
  void add(Component component, int number);
  int of(Component component) const;
  const Part* begin() const { return parts_.data(); }
  const Part* end() const { return parts_.data() + size_; }
  std::size_t size() const { return size_; }

 private:
  std::array<Part, 4> parts_{};
  std::size_t size_ = 0;
};

/// One dissolved species, formed from the components' masters.
struct Species {
  std::string name;  ///< its formula: "CaHCO3+"
  int charge = 0;
  double molar_mass = 0;  ///< g/mol
  Composition composition;
  LogK log_k;  ///< of its formation from masters
  ActivityModel activity;
  std::string reaction;  ///< as in its source; empty for a master
  Source source;
  /// How often each reaction of the file is in its formation: index of the species whose row the
  /// reaction is, and number.
  std::vector<std::pair<std::size_t, double>> built_on;
};

/// A mineral or gas. Its saturation index (log10 of the pressure in atm, for a gas) is log K plus
/// the sum of log10 activities of what it is made of.
struct Phase {
  std::string name;
  Composition composition;
  LogK log_k;  ///< of its formation from masters
  std::string reaction;
  Source source;
};

/// What a pure compound brings.
struct Compound {
  std::string formula;
  double molar_mass = 0;  ///< g/mol
  Totals adds;            ///< mol per mol of compound, alkalinity included
};

/// The form in which a component is counted: its master species, or just a dissolved solid.
struct ComponentRow {
  std::string form;                   ///< formula
  int charge = 0;                     ///< its part in alkalinity per mole; 0 for weak acids
  double molar_mass = 0;              ///< g/mol
  std::optional<std::size_t> master;  ///< index of its species; none if it forms none
};

/// How fast carbon dioxide leaves (first order, per hour), and what the air holds.
struct GasExchange {
  Interval jets_on, jets_off, cover_on;
  double air_log10_pco2_atm = 0;
  std::string air_date;
  std::string rates_source;
  std::string air_source;
};

/// What ions carry of electric current (equation 21).
struct ConductivityRow {
  std::array<double, max_species> equivalent{};  ///< limiting, by species, S cm²/eq at 25 °C
  double per_degree = 0;                         ///< relative, of 25 °C
  std::string source;
};

/// A value: reads once, then only answers.
class SpeciesTable {
 public:
  /// Reads the text of a species file.
  ///
  /// Throws: Error with every problem in it, each at its place
  static SpeciesTable parse(std::string_view text, const std::string& filename);

  const std::vector<Species>& species() const { return species_; }
  const ComponentRow& component(Component c) const {
    return components_[static_cast<std::size_t>(c)];
  }
  /// Throws: Error if there is none (a fault of the data file)
  std::size_t species_index(std::string_view name) const;
  const Phase& phase(std::string_view name) const;

  /// Throws: Error with the nearest known formulas
  const Compound& compound(std::string_view formula) const;
  const std::vector<Compound>& compounds() const { return compounds_; }

  const std::vector<Phase>& phases() const { return phases_; }
  const Elements& elements() const { return elements_; }
  const GasExchange& gas_exchange() const { return gas_exchange_; }
  const ConductivityRow& conductivity() const { return conductivity_; }

 private:
  friend class SpeciesReader;
  Elements elements_;
  std::array<ComponentRow, component_count> components_;
  std::vector<Species> species_;
  std::vector<Phase> phases_;
  std::vector<Compound> compounds_;
  GasExchange gas_exchange_;
  ConductivityRow conductivity_;
};

}  // namespace tub::chemistry
