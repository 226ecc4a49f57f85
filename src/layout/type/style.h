// What a family of sheets looks like: inks, type, lengths; and how it gives way when a page is
// full.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "layout/pages/page.h"
#include "layout/type/font.h"

namespace tub::layout {

/// Points in a millimetre.
inline constexpr double mm = 72 / 25.4;

/// How a text is set. Sizes and leadings are in points.
struct Type {
  double size = 0;
  double leading = 0;
  Face face = Face::regular;
  Colour ink;
};

struct Inks {
  Colour black;
  Colour band;
  Colour accent;
  Colour mandatory;
  Colour hazard;
  Colour paper;
};

/// Each use of type on a sheet.
struct Types {
  Type figure;       ///< the volume
  Type title;        ///< the vessel
  Type kind;         ///< of sheet
  Type short_title;  ///< in the masthead of a second page
  Type short_figure;
  Type heading;  ///< of a paragraph, a table
  Type body;
  Type small;  ///< units, column heads
  Type channel_head;
  Type channel_title;
  Type channel_number;
  Type limit;  ///< of a target, beside its bank
  Type notice_word;
  Type key;  ///< a step's number
  Type named_key;
  Type rung_title;
  Type aside;   ///< behind a rung's title
  Type amount;  ///< to pour now
  Type spoons;
  Type spoons_under;   ///< where they do not fit beside
  Type second_amount;  ///< only on its condition
  Type second_spoons;
  Type table_amount;
  Type table_spoons;
  Type table_limit;
  Type product;        ///< beside its dose
  Type table_reading;  ///< before its amount
  Type target;         ///< in its frame
  Type signal;         ///< word of a label
  Type foot;
};

/// Each length on a sheet, in points.
struct Lengths {
  double page_width_least = 0;  ///< a smaller page is refused
  double page_height_least = 0;
  double margin_side = 0;
  double margin_top = 0;
  double foot_margin = 0;  ///< from the foot line to the paper's edge
  double foot_space = 0;   ///< least, between the blocks and the foot line
  double block_space = 0;
  double paragraph_space = 0;  ///< between paragraphs that run round pictograms
  double close_space = 0;      ///< between blocks that belong together
  double hairline = 0;
  double table_rule = 0;  ///< between rows
  double bank = 0;
  double stile = 0;  ///< stiles and rungs
  double masthead_rule = 0;
  double notice_frame = 0;
  double target_frame = 0;
  double title_gap = 0;  ///< between the title and the figure
  double rule_above = 0;
  double rule_below = 0;
  double fact_gap = 0;
  double fact_gap_least = 0;
  double logo_width = 0;  ///< of the box that a logo is scaled into
  double logo_height = 0;
  double chip_padding = 0;
  double tick = 0;
  double small_tick = 0;
  double tick_drop = 0;  ///< of a tick's foot below the baseline
  double small_tick_drop = 0;
  double tick_line = 0;
  double tick_gap = 0;  ///< between a small tick and its text
  double triangle_width = 0;
  double triangle_height = 0;
  double triangle_drop = 0;
  double triangle_gap = 0;
  double arrow_width = 0;
  double arrow_height = 0;
  double channel_name = 0;
  double channel_now = 0;
  double channel_after = 0;
  double channel_row = 0;
  double channel_head = 0;
  double plot_left = 0;
  double plot_right = 0;
  double plot_inset = 0;  ///< of the outermost ring's centre from the plot's edge
  double ring = 0;
  double ring_line = 0;
  double bar = 0;
  double bar_least = 0;
  double run_line = 0;
  double limit_gap = 0;
  double outside_from = 0;  ///< of the scale outside the band, from the bank
  double key_ring = 0;
  double key_ring_line = 0;
  double key_bar_width = 0;
  double key_bar_height = 0;
  double key_gap = 0;
  double sign = 0;
  double sign_gap = 0;
  double small_sign = 0;
  double sign_text_gap = 0;
  double sign_drop = 0;  ///< of a rung's signs below its line
  double notice_side = 0;
  double notice_above = 0;
  double notice_below = 0;
  double notice_gap = 0;
  double ladder_key = 0;
  double ladder_name = 0;
  double name_indent = 0;
  double gutter = 0;
  double column_gutter = 0;
  double rung_above = 0;
  double rung_below = 0;
  double hazard_below = 0;  ///< between a hazard and the pour
  double ladder_foot = 0;
  double ladder_head_above = 0;
  double ladder_head_below = 0;
  double wait_track = 0;
  double test_track = 0;
  double reading_track = 0;
  double point_gap = 0;     ///< between a title and the points behind it, and between those
  double sentence_gap = 0;  ///< behind a point that is a sentence
  double outcome_gap = 0;
  double outcome_above = 0;
  double spoons_gap = 0;
  double second_gap = 0;
  double second_spoons_gap = 0;
  double cell_above = 0;
  double cell_below = 0;
  double cell_gap = 0;
  double blank_row = 0;  ///< of a table, to write in
  double answer_width = 0;
  double answer_height = 0;
};

/// Proportions, from 0 to 1.
struct Shares {
  double band_from = 0;  ///< of the plot's width
  double band_to = 1;
};

/// One complete set of inks, type and lengths.
struct Setting {
  Inks inks;
  Types types;
  Lengths lengths;
  Shares shares;
};

/// The settings of a style, from the most generous to the tightest; each is tried only if a sheet
/// does not fit in the one before.
struct Style {
  std::vector<Setting> settings;

  /// Reads a style's JSON: inks, type (points), lengths (mm), shares, and under `give_way` what
  /// changes with each tighter setting.
  ///
  /// file:   for messages
  /// Throws: Error with everything that is wrong in the text
  static Style parse(std::string_view json, const std::string& file);
};

}  // namespace tub::layout
