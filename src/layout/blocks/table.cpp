// A table: columns by millimetres or shares, rows on common baselines, hairlines between them.
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include "layout/blocks/blocks.h"
#include "layout/blocks/cells.h"
#include "layout/blocks/marks.h"

namespace tub::layout {
namespace {

/// One column's place.
struct Track {
  double left = 0;
  double width = 0;  ///< for its text: without the gap to the next column
  Align align = Align::left;
};

Align align_of(TableColumn::Align align) {
  if (align == TableColumn::Align::left) return Align::left;
  return align == TableColumn::Align::right ? Align::right : Align::centre;
}

std::vector<Track> tracks_of(const Table& table, double width, const Context& context) {
  const double gap = context.lengths().cell_gap;
  double fixed = 0;
  double shares = 0;
  for (const TableColumn& column : table.columns) {
    fixed += column.mm * mm;
    if (column.mm == 0) shares += column.share;
  }
  const double rest = width - fixed;
  if (rest < -1e-6) context.too_wide("a table's columns", -rest);
  std::vector<Track> tracks;
  double left = 0;
  for (const TableColumn& column : table.columns) {
    const double whole =
        column.mm > 0 ? column.mm * mm : rest * column.share / std::max(shares, 1e-9);
    const bool last = tracks.size() + 1 == table.columns.size();
    tracks.push_back({left, whole - (last ? 0 : gap), align_of(column.align)});
    left += whole;
  }
  return tracks;
}

bool has_heads(const Table& table) {
  return std::any_of(table.columns.begin(), table.columns.end(),
                     [](const TableColumn& column) { return !column.head.empty(); });
}

class TableMaker {
 public:
  TableMaker(const Table& table, double width, const Context& context)
      : table_(table),
        width_(width),
        tracks_(tracks_of(table, width, context)),
        context_(context),
        lengths_(context.lengths()) {}

  Fragment make() {
    element_ = out_.add(Element::of(Role::table));
    if (has_heads(table_)) lay_row(head_row(), lengths_.cell_below);
    for (std::size_t i = 0; i < table_.rows.size(); ++i) {
      const bool goes_on = i + 1 < table_.rows.size() && table_.rows[i + 1].is_joined;
      lay_row(table_.rows[i], goes_on ? 0 : lengths_.cell_below);
    }
    if (role_above_ == TableRow::Role::blank || table_.is_closed) draw_rule(out_.height);
    draw_upright_rules();
    return std::move(out_);
  }

  TableParts make_parts() {
    element_ = -1;  // rows belong to the table that each page has of its own
    TableParts parts;
    lay_row(head_row(), lengths_.cell_below);
    parts.head = std::exchange(out_, Fragment{});
    for (std::size_t i = 0; i < table_.rows.size(); ++i) {
      const bool goes_on = i + 1 < table_.rows.size() && table_.rows[i + 1].is_joined;
      lay_row(table_.rows[i], goes_on ? 0 : lengths_.cell_below);
      if (!goes_on) parts.rows.push_back(std::exchange(out_, Fragment{}));
    }
    return parts;
  }

 private:
  TableRow head_row() const {
    TableRow row{TableRow::Role::head, {}};
    for (const TableColumn& column : table_.columns) row.cells.push_back({column.head, 1});
    return row;
  }

  std::vector<LaidCell> lay_cells(const TableRow& row, std::vector<Track>& places) const {
    std::vector<LaidCell> cells;
    std::size_t first = 0;
    for (const Cell& cell : row.cells) {
      const std::size_t last = first + static_cast<std::size_t>(std::max(cell.columns, 1)) - 1;
      if (last >= tracks_.size()) {
        throw Error(Diagnostic{
            fmt::format("a row of a table has more cells than its {} columns", tracks_.size()),
            context_.where,
            {},
            "remove a cell, or add a column"});
      }
      const double right = tracks_[last].left + tracks_[last].width;
      const Track place{tracks_[first].left, right - tracks_[first].left, tracks_[first].align};
      cells.push_back(lay_cell(cell, row.role, place.width, place.align, context_));
      places.push_back(place);
      first = last + 1;
    }
    return cells;
  }

  /// Where no column has a head, a row is headed by its first cell.
  static void head_row_by_first(std::vector<LaidCell>& cells) {
    if (cells.empty()) return;
    for (Element& element : cells.front().fragment.elements) {
      if (element.role != Role::cell) continue;
      element.role = Role::header_cell;
      element.scope = Element::Scope::row;
    }
  }

  void lay_row(const TableRow& row, double space_below) {
    std::vector<Track> places;
    std::vector<LaidCell> cells = lay_cells(row, places);
    const bool head = row.role == TableRow::Role::head;
    double baseline = 0;
    double below = 0;
    for (const LaidCell& cell : cells) {
      baseline = std::max(baseline, cell.fragment.baseline);
      below = std::max(below, cell.fragment.height - cell.fragment.baseline);
    }
    const double above = head || row.is_joined ? 0 : lengths_.cell_above;
    double height = above + baseline + below + space_below;
    if (row.role == TableRow::Role::blank) height = std::max(height, lengths_.blank_row);
    draw_ground(row, height);
    const int line = out_.add(Element::of(Role::row, element_));
    if (!has_heads(table_) && row.role == TableRow::Role::plain) head_row_by_first(cells);
    for (std::size_t i = 0; i < cells.size(); ++i) {
      draw_cell_ground(cells[i].ground, places[i], height);
      const double top = out_.height + above + baseline - cells[i].fragment.baseline;
      out_.place(cells[i].fragment, {places[i].left, top}, line);
    }
    if (head && upright_from_ < 0) upright_from_ = out_.height + height;
    if (upright_from_ < 0) upright_from_ = out_.height;
    out_.height += height;
    role_above_ = row.role;
    first_ = false;
  }

  void draw_rule(double y) {
    out_.draw(Rule{.from = {0, y},
                   .to = {width_, y},
                   .width = lengths_.table_rule,
                   .colour = context_.inks().black});
  }

  void draw_upright(std::size_t column, double from, double to) {
    const double x = tracks_[column].left - lengths_.cell_gap / 2;
    out_.draw(Rule{.from = {x, from},
                   .to = {x, to},
                   .width = lengths_.hairline,
                   .colour = context_.inks().black});
  }

  /// Beside the rows below the head.
  void draw_upright_rules() {
    for (std::size_t i = 1; i < table_.columns.size(); ++i) {
      if (table_.columns[i].is_ruled && upright_from_ >= 0) {
        draw_upright(i, upright_from_, out_.height);
      }
    }
  }

  /// Rules between rows; a band in grey between two banks; upright hairlines where a hand writes.
  void draw_ground(const TableRow& row, double height) {
    const Inks& inks = context_.inks();
    const TableRow::Role role = row.role;
    if (role == TableRow::Role::band) {
      out_.draw(filled_box({0, out_.height}, width_, height, inks.band));
      out_.draw(filled_box({0, out_.height}, width_, lengths_.bank, inks.black));
      out_.draw(
          filled_box({0, out_.height + height - lengths_.bank}, width_, lengths_.bank, inks.black));
      return;
    }
    const bool is_below_rule = first_ || row.is_joined || role_above_ == TableRow::Role::band;
    if (!is_below_rule) draw_rule(out_.height);
    if (role != TableRow::Role::blank) return;
    for (std::size_t i = 1; i < tracks_.size(); ++i) {
      draw_upright(i, out_.height, out_.height + height);
    }
  }

  void draw_cell_ground(LaidCell::Ground ground, const Track& place, double height) {
    if (ground == LaidCell::Ground::none) return;
    const Colour black = context_.inks().black;
    const double inset = lengths_.hairline;
    const Point corner{place.left, out_.height + inset};
    const double tall = height - 2 * inset;
    if (ground == LaidCell::Ground::black) {
      out_.draw(filled_box(corner, place.width, tall, black));
      return;
    }
    const double line = lengths_.notice_frame;
    out_.draw(Box{.corner = {corner.x + line / 2, corner.y + line / 2},
                  .width = place.width - line,
                  .height = tall - line,
                  .fill = {},
                  .stroke = Stroke{line, black}});
  }

  const Table& table_;
  double width_;
  std::vector<Track> tracks_;
  const Context& context_;
  const Lengths& lengths_;
  Fragment out_;
  int element_ = 0;
  bool first_ = true;
  double upright_from_ = -1;  ///< below the head; none yet
  TableRow::Role role_above_ = TableRow::Role::plain;
};

}  // namespace

Fragment lay_table(const Table& table, double width, const Context& context) {
  return TableMaker(table, width, context).make();
}

bool can_break(const Table& table) {
  const bool has_long_lines =
      table.is_closed || std::any_of(table.columns.begin(), table.columns.end(),
                                     [](const TableColumn& column) { return column.is_ruled; });
  const bool are_plain = std::all_of(table.rows.begin(), table.rows.end(), [](const TableRow& row) {
    return row.role == TableRow::Role::plain;
  });
  return has_heads(table) && are_plain && !has_long_lines && !table.rows.empty();
}

TableParts lay_table_parts(const Table& table, double width, const Context& context) {
  return TableMaker(table, width, context).make_parts();
}

}  // namespace tub::layout
