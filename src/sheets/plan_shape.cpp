// One table a shape: the names are those of docs/templates.md.
#include "sheets/plan_shape.h"

#include <array>

#include "sheets/plan_facts.h"

namespace tub {
namespace {

using Kind = FactRow::Kind;

constexpr std::array text_rows = {FactRow{"text"}};
constexpr Shape text{text_rows};

constexpr std::array sign_rows = {FactRow{"sign"}, FactRow{"alt"}};
constexpr Shape sign{sign_rows};

constexpr std::array unmet_rows = {FactRow{"name"}, FactRow{"reached"}, FactRow{"target"},
                                   FactRow{"advice"}};
constexpr Shape unmet{unmet_rows};

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
constexpr Shape reading{reading_rows};

constexpr std::array held_rows = {FactRow{"name"}, FactRow{"unit"}, FactRow{"now"}};
constexpr Shape held{held_rows};

constexpr std::array pour_rows = {
    FactRow{"condition"}, FactRow{"amount"}, FactRow{"spoons"},
    FactRow{"wait"},      FactRow{"test"},   FactRow{"reading"},
};
constexpr Shape pour{pour_rows};

constexpr std::array outcome_rows = {FactRow{"reads"}, FactRow{"then"}};
constexpr Shape outcome{outcome_rows};

constexpr std::array rung_rows = {
    FactRow{"number"},
    FactRow{"title"},
    FactRow{"aside", Kind::list, &text},
    FactRow{"hazard"},
    FactRow{"signs", Kind::list, &sign},
    FactRow{"tick"},
    FactRow{"pours", Kind::list, &pour},
    FactRow{"outcomes", Kind::list, &outcome},
    FactRow{"notes", Kind::list, &text},
    FactRow{"sanitizer"},
};
constexpr Shape rung{rung_rows};

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
    FactRow{"date_or_line"},
    FactRow{"local_rules_first"},
    FactRow{"signs", Kind::list, &sign},
    FactRow{"every_time"},
    FactRow{"protection"},
    FactRow{"never_mix"},
    FactRow{"worst_pairs"},
    FactRow{"readings", Kind::list, &reading},
    FactRow{"held", Kind::list, &held},
    FactRow{"last_number"},
    FactRow{"found", Kind::list, &text},
    FactRow{"gate_closed"},
    FactRow{"own_figures"},
    FactRow{"cautions", Kind::list, &text},
    FactRow{"unmet", Kind::list, &unmet},
    FactRow{"rungs", Kind::list, &rung},
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
constexpr Shape plan{plan_rows};

}  // namespace

const Shape& text_shape() { return text; }
const Shape& sign_shape() { return sign; }
const Shape& unmet_shape() { return unmet; }
const Shape& reading_shape() { return reading; }
const Shape& held_shape() { return held; }
const Shape& pour_shape() { return pour; }
const Shape& outcome_shape() { return outcome; }
const Shape& rung_shape() { return rung; }
const Shape& plan_shape() { return plan; }

}  // namespace tub
