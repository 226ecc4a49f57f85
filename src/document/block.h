// The eleven kinds of block that every sheet is a list of. They hold words and numbers, never a
// place on the paper, and none knows which sheet it is on.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "document/words.h"

namespace tub::document {

struct Block;

/// A picture from outside, such as a shop's logo.
struct Picture {
  std::string png;  ///< the file's bytes
  int width_px = 0;
  int height_px = 0;
  std::string alt;  ///< never empty
};

/// Names the sheet and shows its one big figure (the volume); a rule; facts in one row below it.
struct Masthead {
  Words kind;    ///< "Startup card"
  Words title;   ///< the vessel
  Words figure;  ///< "1340 L"; may be empty
  /// From left to right, the last at the right edge; a fact may be a writing line.
  std::vector<Words> facts;
  /// At the right edge, beside the facts; its place is a box of the style's size at most.
  std::optional<Picture> logo = std::nullopt;
};

/// How large a paragraph or a cell is set: a heading is 12 pt bold on a card; a product stands
/// beside its dose, a reading before its amount, a signal word above a label's statements.
enum class Rank { body, heading, small, product, reading, signal };

struct Paragraph {
  Words words;
  Rank rank = Rank::body;
};

/// Paragraphs below each other, or spread over one row from edge to edge.
struct Text {
  enum class Flow { stacked, spread };
  std::vector<Paragraph> paragraphs;
  Flow flow = Flow::stacked;
};

/// One reading of the channel: a number on a scale, or the number's words where it has none.
struct ChannelReading {
  Words name;                    ///< "Alkalinity"
  Words unit;                    ///< "mg/L"; may be empty
  std::string now;               ///< as printed: "62", "not tested"
  std::optional<double> now_at;  ///< absent: no ring
  std::string low;               ///< limits of the target as printed; empty: none on this side
  std::string high;
  double low_at = 0;
  double high_at = 0;
  std::string after;  ///< as printed: "105–119"
  double after_low_at = 0;
  double after_high_at = 0;
  double plot_low = 0;  ///< the reading's plot range
  double plot_high = 0;
  std::string alt;  ///< the row in a sentence, for those who cannot see it
};

/// A metal that is only held: a name and what becomes of it, no band and no bar.
struct ChannelHeld {
  Words name;
  Words unit;
  std::string now;
  Words held;  ///< "0.3, kept dissolved"
};

/// Range bars: every reading's target in one grey column, now a ring and afterwards a bar. Held
/// rows are printed last, below the column; a reading without any target is one of them.
struct Channel {
  Words title;       ///< "Your water"
  Words now_head;    ///< "now"
  Words low_head;    ///< "too low"
  Words band_head;   ///< "to get in"
  Words high_head;   ///< "too high"
  Words after_head;  ///< "after step 6"
  std::vector<std::variant<ChannelReading, ChannelHeld>> rows;
};

/// Mandatory signs (ISO 7010) and hazard pictograms (GHS).
enum class Pictogram {
  gloves,
  goggles,
  mask,
  face_shield,
  apron,
  ghs_oxidiser,
  ghs_corrosion,
  ghs_toxic,
  ghs_exclamation,
  ghs_health,
  ghs_environment,
};

/// The pictogram of that name ("gloves", "ghs_corrosion"); nothing if there is none.
std::optional<Pictogram> pictogram_named(std::string_view name);
/// All names, in the order of the enumeration.
std::span<const std::string> pictogram_names();

struct Sign {
  Pictogram pictogram = Pictogram::gloves;
  std::string alt;  ///< "wear protective gloves"
};

/// One line of a rung: what to pour now, how long to wait, what to test, what the test should say.
struct Pour {
  enum class Turn { first, second };
  Turn turn = Turn::first;  ///< second: set in, smaller tick, regular weight, condition first
  Words condition;          ///< "If it reads under 110:"; empty on a first pour
  Amount amount;            ///< an action without an amount stands in `amount.text` ("jets on")
  Words wait;               ///< "20 min"; printed bold
  Words test;               ///< "alkalinity"
  Words reading;            ///< "expect 97–107" plain, or a Band for the target
};

/// A reading and what to do then; the colon belongs to `when`, which is printed bold.
struct RungOutcome {
  Words when;  ///< "Over 150:"
  Words then;  ///< "stop, call us."
};

/// One step of a ladder.
struct Rung {
  Words key;                 ///< its number or name
  Words title;               ///< the product or the action, 12 pt bold
  std::vector<Words> aside;  ///< behind the title, 9.5 pt: what it does, how; or the gate's points
  Words hazard;              ///< bold, behind a warning triangle; may be empty
  std::vector<Sign> signs;   ///< the whole set of this step; may be empty
  bool tick = false;         ///< a tick box before the title (steps that pour nothing, the gate)
  std::vector<Pour> pours;
  std::vector<RungOutcome> outcomes;  ///< in one line where they fit
  std::vector<Words>
      notes;  ///< lines of body text: below the title if nothing is poured, else last
  std::vector<Block> blocks;         ///< further contents (worksheets, named ladders)
  bool prefer_break_before = false;  ///< where a ladder needs a second page, break here if possible
};

/// Two stiles, a rung above each step, the step's key in the opening.
struct Ladder {
  enum class Key { number, name };
  Key key = Key::number;  ///< the width of the opening
  Words pour_head;        ///< column heads, repeated on each page; all empty: no head row
  Words wait_head;
  Words test_head;
  Words reading_head;
  /// Below the last rung of a page after which the ladder goes on; "{key}" is that of the next
  /// rung.
  Words continues;
  std::vector<Rung> rungs;
};

struct TableColumn {
  enum class Align { left, right, centre };
  Words head;
  double share = 1;  ///< of the width that columns in mm leave
  double mm = 0;     ///< a fixed width; 0: by its share
  Align align = Align::left;
  bool is_ruled = false;  ///< an upright hairline stands before it
};

/// An amount in a cell, its spoons beside or under it, and a word such as "most at one time".
struct AmountCell {
  enum class Spoons { beside, under };
  Amount amount;
  Spoons spoons = Spoons::beside;
  std::string limit;
};
struct ArrowCell {};
struct TickCell {};
/// A target in a frame, for one ink.
struct FramedCell {
  std::string text;
};
struct SignsCell {
  std::vector<Sign> signs;
};
/// Two products that must not meet, in a word.
struct PairCell {
  enum class Severity { apart, harm, deadly };
  std::string text;
  Severity severity = Severity::apart;
};

/// A cell without content is `Words{}`.
struct Cell {
  std::variant<Words, AmountCell, ArrowCell, TickCell, FramedCell, SignsCell, PairCell> content;
  int columns = 1;         ///< how many it spans
  Rank rank = Rank::body;  ///< of words
};

struct TableRow {
  enum class Role { plain, head, band, blank };
  Role role = Role::plain;
  std::vector<Cell> cells;
  bool is_joined = false;  ///< belongs to the row above: no rule between them, no space
};

/// Rows of cells, rules between rows, no frame.
struct Table {
  std::vector<TableColumn> columns;
  std::vector<TableRow> rows;
  bool is_closed = false;  ///< a rule below the last row
};

/// A big word and a text that nobody may miss.
struct Notice {
  enum class Look { framed, reversed };
  Words word;  ///< "Never mix"
  Words text;
  Look look = Look::framed;
  bool runs_in = false;  ///< the text begins behind the word and goes on below it
};

/// Pictograms in a row beside their text, or in a column with paragraphs running round them.
struct Signs {
  enum class Order { row, column };
  std::vector<Sign> signs;
  Words text;                     ///< of a row
  std::optional<double> side_mm;  ///< absent: as the style says
  Order order = Order::row;
  std::vector<Paragraph> paragraphs;  ///< beside a column and below it; below a row
};

/// A chart: lines and marks over two axes; a band is a target.
struct Chart {
  struct Axis {
    Words name;
    double low = 0;
    double high = 1;
    double step = 0.1;  ///< between labelled grid lines
    int decimals = 0;
  };
  struct Point {
    double x = 0;
    double y = 0;
  };
  struct Line {
    Words name;
    std::vector<Point> points;
  };
  struct Target {
    Words name;
    double low = 0;  ///< along x
    double high = 0;
  };
  struct Mark {
    Words name;
    Point at;
  };
  Axis x;
  Axis y;
  std::vector<Line> lines;
  std::vector<Target> bands;
  std::vector<Mark> marks;
  double height_mm = 60;           ///< of the plot
  std::string decimal_sign = ".";  ///< of the numbers on the axes
  std::string alt;
};

/// A square code at its own size (modules of 0.5 mm, quiet zone included), and its text.
struct Code {
  enum class Caption { beside, under };
  std::string payload;    ///< characters of the alphanumeric mode
  double side_mm = 28.5;  ///< the largest square that it may fill
  Words text;
  std::string alt;
  Caption caption = Caption::beside;  ///< under: the code stands at the right edge
};

/// Lists of blocks beside each other, one level deep.
struct Columns {
  struct Column {
    double share = 1;
    std::vector<Block> blocks;
  };
  std::vector<Column> columns;
  bool is_ruled = false;  ///< upright hairlines between them
};

/// Empty paper to write on, with answer boxes at its foot.
struct Room {
  double least_mm = 20;
  double share = 1;  ///< of the page's free height
  std::vector<Words> answers;
};

/// One block and how it takes to a page's end. A block is never split, ladders and tables with
/// heads excepted: those break between rungs or rows, and the heads are repeated.
struct Block {
  enum class Pages { one, every };
  std::variant<Masthead, Text, Channel, Ladder, Table, Notice, Signs, Chart, Code, Columns, Room>
      content;
  /// every: printed again, in its place, on each page (signs, notice, who to call). A masthead
  /// always is, in its short form (kind, title and figure in one line).
  Pages pages = Pages::one;
  /// Belongs to the block above: the smaller space stands between them, and no page break.
  bool close_to_previous = false;
  std::string where;  ///< its place in the template, for messages
};

}  // namespace tub::document
