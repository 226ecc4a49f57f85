// The waters that a plan speaks of, by name, and how each came from another.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planning/water/draft.h"

namespace tub::why {

class Asking;

/// A pure compound that was put in: mg per kg of water, by the node that says how much.
struct Part {
  std::string formula;
  std::string mg_l;
};

/// What made a water out of another.
struct Making {
  enum class Kind {
    slip,    ///< from its own test; `from` is the slip
    same,    ///< the other water by another name
    heated,  ///< to the temperature of node `by`
    dosed,   ///< `parts`, then `spent` of a sanitizer
    aired,   ///< to the carbon dioxide of node `by`
    lost,    ///< inorganic carbon, mmol/kg of node `by`
    spent,   ///< all its free chlorine
    mixed,   ///< with `other`, by the fraction of node `by`
    judged   ///< the likeliest after retests
  };
  Kind kind = Kind::same;
  std::string from;
  std::string by{};
  std::string other{};
  std::vector<Part> parts{};
  std::string spent{};  ///< node of the sanitizer spent, mg/L; empty: nothing
  Reading sanitizer = Reading::free_chlorine;
};

struct NamedWater {
  Water water;
  WaterState state;
  Making making;
};

class Waters {
 public:
  bool has(const std::string& id) const { return all_.contains(id); }
  const NamedWater& at(const std::string& id) const { return all_.at(id); }
  void add(const std::string& id, NamedWater water) { all_.insert_or_assign(id, std::move(water)); }

 private:
  std::map<std::string, NamedWater> all_;
};

/// The water of a name, known or made known: "/start", "/steps/3/after", "/final",
/// "/steps/3/portions/0#water", "/drift#at_air", …
const NamedWater& water_named(Asking& asking, const std::string& id);

/// A reading of a water, explained: the identifier of its node. `key`: as in `water`
std::string reading_of(Asking& asking, const std::string& water, std::string_view key);
/// The equation and inputs of it, for a number of the plan.
Node explained_reading(Asking& asking, const std::string& water, const std::string& key);

/// A number of a water's state by its key.
double number_of(const WaterState& state, std::string_view key);
double WaterState::*member_of(std::string_view key);

/// The water after so many of a step's pours (move of the draft): its name.
std::string after_pours(Asking& asking, std::size_t move, std::size_t pours);

}  // namespace tub::why
