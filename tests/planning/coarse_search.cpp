#include "coarse_search.h"

#include <array>
#include <optional>
#include <tuple>

#include "planning/goals/sanitizer.h"
#include "planning/goals/single_reading.h"
#include "planning/pours/pouring.h"

namespace tub::planning {
namespace {

/// Amounts that are tried of each product, mg/L: each about half as much again as the last.
constexpr std::array amounts = {0.0,  2.0,  4.0,  8.0,   14.0,  22.0,
                                34.0, 50.0, 75.0, 110.0, 160.0, 240.0};
/// What the jets are run to, log10 of atm.
constexpr std::array releases = {-3.3, -3.0, -2.7, -2.4};
constexpr std::array rounds = {1, 2, 3, 5, 8};

class Search {
 public:
  explicit Search(const Situation& situation)
      : situation_(situation),
        alkaline_(situation.mildest(Purpose::raise_alkalinity)),
        base_(situation.mildest(Purpose::raise_ph)),
        acid_(situation.mildest(Purpose::lower_ph)) {
    if (situation.start.state.temperature_c < situation.dosing_c) {
      before_.emplace_back(HeatMove{situation.dosing_c});
    }
    after_ = sanitizer_moves(situation);
    if (const auto dose = calcium_dose(situation, after_)) after_.emplace_back(*dose);
    after_.emplace_back(HeatMove{situation.request.tub.bathing_temperature_c});
    best_.score = score(situation, whole({}));
    best_.draft = whole({});
  }

  CoarseBest best() {
    for (const double alkaline : amounts_of(alkaline_)) {
      for (const double base : amounts_of(base_)) {
        for (const double acid : amounts_of(acid_)) {
          with_and_without_air({dose(alkaline_, Reading::total_alkalinity, alkaline),
                                dose(base_, Reading::ph, base), dose(acid_, Reading::ph, acid)});
        }
      }
    }
    in_turns();
    in_rounds();
    return best_;
  }

 private:
  static std::vector<double> amounts_of(const Supply* supply) {
    if (supply == nullptr) return {0};
    return {amounts.begin(), amounts.end()};
  }

  static std::optional<DoseMove> dose(const Supply* supply, Reading goal, double mg_l) {
    if (supply == nullptr || mg_l <= 0) return std::nullopt;
    return DoseMove{supply, goal, mg_l};
  }

  void with_and_without_air(const std::array<std::optional<DoseMove>, 3>& doses) {
    constexpr std::array<std::array<std::size_t, 3>, 3> orders = {
        {{0, 1, 2}, {2, 0, 1}, {1, 0, 2}}};
    for (const auto& order : orders) {
      Draft moves;
      for (const std::size_t i : order) {
        if (doses.at(i)) moves.emplace_back(*doses.at(i));
      }
      consider(moves);
      if (order != orders.front()) continue;
      for (const double to : releases) {
        Draft aired = moves;
        aired.emplace_back(ReleaseMove{to});
        consider(aired);
      }
    }
  }

  /// Acid between two pours of bicarbonate.
  void in_turns() {
    if (alkaline_ == nullptr || acid_ == nullptr) return;
    for (const double first : amounts) {
      for (const double acid : amounts) {
        for (const double rest : amounts) {
          if (first <= 0 || acid <= 0 || rest <= 0) continue;
          consider({DoseMove{alkaline_, Reading::total_alkalinity, first},
                    DoseMove{acid_, Reading::ph, acid},
                    DoseMove{alkaline_, Reading::total_alkalinity, rest}});
        }
      }
    }
  }

  void in_rounds() {
    if (acid_ == nullptr) return;
    for (const int times : rounds) {
      for (const double acid : amounts) {
        for (const double to : releases) {
          if (acid <= 0) continue;
          Draft moves;
          for (int i = 0; i < times; ++i) {
            moves.emplace_back(DoseMove{acid_, Reading::total_alkalinity, acid});
            moves.emplace_back(ReleaseMove{to});
          }
          consider(moves);
        }
      }
    }
  }

  Draft whole(const Draft& moves) const {
    Draft draft = before_;
    draft.insert(draft.end(), moves.begin(), moves.end());
    draft.insert(draft.end(), after_.begin(), after_.end());
    return draft;
  }

  /// No pour takes pH out of the window, and jets only ever take carbon dioxide away.
  bool can_be_done(const Draft& draft) const {
    const Range window{situation_.assumptions.pour_ph.low, situation_.assumptions.pour_ph.high};
    Water water = situation_.start.water;
    for (const Move& move : draft) {
      const auto* release = std::get_if<ReleaseMove>(&move);
      if (release != nullptr &&
          situation_.bench.state(water).log10_pco2_atm < release->to_log10_pco2_atm) {
        return false;
      }
      const auto* dose = std::get_if<DoseMove>(&move);
      if (dose != nullptr &&
          largest_pour(water, *dose->supply, dose->mg_l, window, situation_.bench) < dose->mg_l) {
        return false;
      }
      water = situation_.bench.after(water, move);
    }
    return true;
  }

  void consider(const Draft& moves) {
    const Draft draft = whole(moves);
    const Score found = score(situation_, draft);
    if (!meets_more(found, best_.score) || !can_be_done(draft)) return;
    best_ = {draft, found};
  }

  const Situation& situation_;
  const Supply* alkaline_;
  const Supply* base_;
  const Supply* acid_;
  Draft before_;
  Draft after_;
  CoarseBest best_;
};

}  // namespace

CoarseBest coarse_best(const Situation& situation) { return Search(situation).best(); }

bool meets_more(const Score& a, const Score& b) {
  return std::tie(a.unsafe, a.unmet, a.unmet_hardness) <
         std::tie(b.unsafe, b.unmet, b.unmet_hardness);
}

}  // namespace tub::planning
