// How long carbon dioxide takes to leave.
#pragma once

#include "chemistry/operations.h"

namespace tub::chemistry {

/// Inorganic carbon above (or below, then negative) what the water holds in equilibrium with so
/// much carbon dioxide in the air, at its alkalinity and temperature. mol/kg.
double carbon_surplus(const Water& water, double log10_pco2_atm, const SpeciesTable& table);

/// Hours until the water has come from its own carbon dioxide to that of a target, by first order
/// in the surplus over the table's air (equation 18). `low` answers the highest rate.
///
/// per_hour: such as table.gas_exchange().jets_on
/// Throws:   Error if the target lies not between the water and the air
Interval hours_to_release(const Water& water, double target_log10_pco2_atm,
                          const Interval& per_hour, const SpeciesTable& table);

/// The water after so many hours at a first-order rate per hour.
///
/// Throws: Error if hours or rate are negative
Water lose_carbon_dioxide(const Water& water, double hours, double per_hour,
                          const SpeciesTable& table);

/// The water with a share (0 to 1) of its surplus over the table's air gone.
///
/// Throws: Error if the share is outside 0 to 1
Water lose_carbon_share(const Water& water, double share, const SpeciesTable& table);

}  // namespace tub::chemistry
