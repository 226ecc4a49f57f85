// One table a shape: the names are those of docs/templates.md.
#include "sheets/cabinet/top_up_shapes.h"

#include <array>

namespace tub::sheets {
namespace {

using Kind = FactRow::Kind;

constexpr std::array cabinet_line_rows = {
    FactRow{"low_reads"},  FactRow{"low_amount"},  FactRow{"low_spoons"},  FactRow{"low_limit"},
    FactRow{"high_reads"}, FactRow{"high_amount"}, FactRow{"high_spoons"}, FactRow{"high_limit"},
    FactRow{"has_limit"},  FactRow{"has_spoons"},  FactRow{"is_first"},    FactRow{"is_second"}};
constexpr Shape cabinet_line{cabinet_line_rows};

constexpr std::array cabinet_reading_rows = {FactRow{"name"},
                                             FactRow{"target"},
                                             FactRow{"to_get_in"},
                                             FactRow{"between"},
                                             FactRow{"low_product"},
                                             FactRow{"high_product"},
                                             FactRow{"is_fourth"},
                                             FactRow{"note"},
                                             FactRow{"moved_note"},
                                             FactRow{"alone"},
                                             FactRow{"lines", Kind::list, &cabinet_line}};
constexpr Shape cabinet_reading{cabinet_reading_rows};

constexpr std::array cabinet_rows = {FactRow{"vessel_or_tub"},
                                     FactRow{"place"},
                                     FactRow{"volume"},
                                     FactRow{"shop"},
                                     FactRow{"phone"},
                                     FactRow{"phone_or_line"},
                                     FactRow{"emergency"},
                                     FactRow{"emergency_line"},
                                     FactRow{"date_or_line"},
                                     FactRow{"fingerprint"},
                                     FactRow{"version"},
                                     FactRow{"warning"},
                                     FactRow{"short_warning"},
                                     FactRow{"address"},
                                     FactRow{"bathing_most"},
                                     FactRow{"code"},
                                     FactRow{"local_rules_first"},
                                     FactRow{"readings", Kind::list, &cabinet_reading}};
constexpr Shape cabinet{cabinet_rows};

constexpr std::array tag_row_rows = {
    FactRow{"reads"},    FactRow{"amount"},       FactRow{"spoons"},     FactRow{"limit"},
    FactRow{"is_first"}, FactRow{"is_second"},    FactRow{"is_dosed"},   FactRow{"label"},
    FactRow{"once"},     FactRow{"spoons_under"}, FactRow{"limit_under"}};
constexpr Shape tag_row{tag_row_rows};

constexpr std::array tag_use_rows = {FactRow{"intro"}, FactRow{"reading"},
                                     FactRow{"reading_in_text"},
                                     FactRow{"rows", Kind::list, &tag_row}};
constexpr Shape tag_use{tag_use_rows};

constexpr std::array tag_rows = {FactRow{"product_id"},
                                 FactRow{"vessel_or_tub"},
                                 FactRow{"product"},
                                 FactRow{"vessel"},
                                 FactRow{"volume"},
                                 FactRow{"shop"},
                                 FactRow{"phone"},
                                 FactRow{"phone_or_line"},
                                 FactRow{"emergency"},
                                 FactRow{"emergency_figure"},
                                 FactRow{"date"},
                                 FactRow{"date_or_line"},
                                 FactRow{"fingerprint"},
                                 FactRow{"version"},
                                 FactRow{"own_spoon"},
                                 FactRow{"never_meets"},
                                 FactRow{"never_meets_worst"},
                                 FactRow{"wear"},
                                 FactRow{"one_of_two"},
                                 FactRow{"one_of_two_short"},
                                 FactRow{"looks_up"},
                                 FactRow{"uses", Kind::list, &tag_use}};
constexpr Shape tag{tag_rows};

}  // namespace

const Shape& cabinet_shape() { return cabinet; }
const Shape& cabinet_reading_shape() { return cabinet_reading; }
const Shape& cabinet_line_shape() { return cabinet_line; }
const Shape& tag_shape() { return tag; }
const Shape& tag_use_shape() { return tag_use; }
const Shape& tag_row_shape() { return tag_row; }

}  // namespace tub::sheets
