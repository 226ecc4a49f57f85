// One table a shape: the names are those of docs/templates.md.
#include "sheets/card/plan_shape.h"

#include <array>

#include "sheets/card/plan_facts.h"

namespace tub::sheets {
namespace {

using Kind = FactRow::Kind;

constexpr std::array unmet_rows = {FactRow{"name"}, FactRow{"reached"}, FactRow{"target"},
                                   FactRow{"advice"}};
constexpr Shape unmet_list{unmet_rows};

constexpr std::array reading_rows = {
    FactRow{"name"},
    FactRow{"unit"},
    FactRow{"now"},
    FactRow{"now_at", Kind::number},
    FactRow{"low"},
    FactRow{"high"},
    FactRow{"low_at", Kind::number},
    FactRow{"high_at", Kind::number},
    FactRow{"target"},
    FactRow{"after"},
    FactRow{"after_low_at", Kind::number},
    FactRow{"after_high_at", Kind::number},
    FactRow{"plot_low", Kind::number},
    FactRow{"plot_high", Kind::number},
};
constexpr Shape reading_facts_list{reading_rows};

constexpr std::array held_rows = {FactRow{"name"}, FactRow{"unit"}, FactRow{"now"}};
constexpr Shape held_list{held_rows};

constexpr std::array pour_rows = {
    FactRow{"condition"}, FactRow{"amount"}, FactRow{"spoons"},
    FactRow{"wait"},      FactRow{"test"},   FactRow{"reading"},
};
constexpr Shape pour_list{pour_rows};

constexpr std::array outcome_rows = {FactRow{"reads"}, FactRow{"then"}};
constexpr Shape outcome_list{outcome_rows};

constexpr std::array rung_rows = {
    FactRow{"number"},
    FactRow{"title"},
    FactRow{"aside", Kind::list, &text_list},
    FactRow{"hazard"},
    FactRow{"signs", Kind::list, &sign_list},
    FactRow{"tick"},
    FactRow{"pours", Kind::list, &pour_list},
    FactRow{"outcomes", Kind::list, &outcome_list},
    FactRow{"notes", Kind::list, &text_list},
    FactRow{"sanitizer"},
};
constexpr Shape rung_list{rung_rows};

constexpr std::array plan_rows = {
    FactRow{"vessel"},
    FactRow{"vessel_or_tub"},
    FactRow{"volume"},
    FactRow{"volume_facts"},
    FactRow{"prepared_for"},
    FactRow{"prepared_by"},
    FactRow{"shop"},
    FactRow{"logo"},
    FactRow{"phone"},
    FactRow{"address"},
    FactRow{"phone_or_line"},
    FactRow{"emergency"},
    FactRow{"emergency_figure"},
    FactRow{"emergency_line"},
    FactRow{"poison_centre"},
    FactRow{"date_or_line"},
    FactRow{"local_rules_first"},
    FactRow{"signs", Kind::list, &sign_list},
    FactRow{"every_time"},
    FactRow{"protection"},
    FactRow{"never_mix"},
    FactRow{"worst_pairs"},
    FactRow{"readings", Kind::list, &reading_facts_list},
    FactRow{"held", Kind::list, &held_list},
    FactRow{"last_number"},
    FactRow{"found", Kind::list, &text_list},
    FactRow{"gate_closed"},
    FactRow{"own_figures"},
    FactRow{"cautions", Kind::list, &text_list},
    FactRow{"unmet", Kind::list, &unmet_list},
    FactRow{"rungs", Kind::list, &rung_list},
    FactRow{"active"},
    FactRow{"hand_over"},
    FactRow{"outlook"},
    FactRow{"drift"},
    FactRow{"assumed"},
    FactRow{"fingerprint"},
    FactRow{"target_set"},
    FactRow{"gate_source"},
    FactRow{"authorities"},
    FactRow{"version"},
};
constexpr Shape whole_plan{plan_rows};

}  // namespace

const Shape& unmet_shape() { return unmet_list; }
const Shape& reading_shape() { return reading_facts_list; }
const Shape& held_shape() { return held_list; }
const Shape& pour_shape() { return pour_list; }
const Shape& outcome_shape() { return outcome_list; }
const Shape& rung_shape() { return rung_list; }
const Shape& plan_shape() { return whole_plan; }

}  // namespace tub::sheets
