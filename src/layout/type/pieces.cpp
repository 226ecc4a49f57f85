// Finds the places where a line may end. The rules are few and plain: behind a space, a hyphen
// between letters, a soft hyphen or a zero-width space; nowhere else.
#include "layout/type/pieces.h"

#include <fmt/format.h>

#include <cstddef>
#include <optional>

#include "base/text.h"
#include "layout/blocks/marks.h"

namespace tub::layout {
namespace {

constexpr char32_t soft_hyphen = 0x00AD;
constexpr char32_t zero_width_space = 0x200B;

bool is_letter(char32_t c) {
  return (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z') || (c >= 0xC0 && c < 0x250);
}

std::u32string checked(const std::string& text, const Context& context) {
  const std::optional<std::u32string> characters = code_points(text);
  if (!characters) {
    throw Error(Diagnostic{"a text is not well-formed UTF-8", context.where, {}, {}});
  }
  for (const char32_t c : *characters) {
    if (c < 0x20 || (c >= 0x7F && c < 0xA0)) {
      throw Error(Diagnostic{
          fmt::format("the control character {} stands in \"{}\"", code_point_name(c), text),
          context.where,
          {},
          "remove it"});
    }
  }
  return *characters;
}

/// Whether a line may end behind character i.
Piece::Break break_behind(const std::u32string& text, std::size_t i) {
  const char32_t c = text[i];
  const bool last = i + 1 == text.size();
  if (c == soft_hyphen) return Piece::Break::soft_hyphen;
  if (c == zero_width_space) return Piece::Break::free;
  if (c == U' ' && (last || text[i + 1] != U' ')) return Piece::Break::free;
  if (c == U'-' && i > 0 && !last && is_letter(text[i - 1]) && is_letter(text[i + 1])) {
    return Piece::Break::free;
  }
  return Piece::Break::none;
}

class Cutter {
 public:
  Cutter(const Type& type, const Context& context) : base_(type), context_(context) {}

  void operator()(const Plain& part) { cut(part.text, base_); }
  void operator()(const Bold& part) { cut(part.text, bold(base_)); }
  void operator()(const Small& part) {
    Type type = context_.types().small;
    if (type.size > base_.size) type.size = base_.size;
    type.leading = base_.leading;
    cut(part.text, type);
  }
  void operator()(const Band& part) {
    Type type = bold(base_);
    type.ink = context_.inks().black;
    Piece piece = piece_of(part.text, type);
    piece.chip = true;
    piece.visible += 2 * chip_side(context_);
    piece.width = piece.visible;
    piece.drawn = chip_marks(piece.visible, type, context_);
    pieces_.push_back(std::move(piece));
  }
  void operator()(const Amount& part) {
    const Types& types = context_.types();
    if (part.spoons.empty()) {
      pieces_.push_back(piece_of(part.text, types.amount));
      return;
    }
    pieces_.push_back(piece_of(part.text + " ", types.amount));
    Piece spoons = piece_of(part.spoons, types.spoons);
    spoons.lead = context_.lengths().spoons_gap - context_.width(" ", types.amount);
    pieces_.push_back(std::move(spoons));
  }
  void operator()(const Fill& part) {
    const double width = part.least_mm * mm;
    const std::string& alt = part.alt.empty() ? context_.document.alternatives.fill : part.alt;
    draw(fill_mark(width, alt, context_), width);
  }
  void operator()(const Triangle& part) {
    const std::string& alt = part.alt.empty() ? context_.document.alternatives.triangle : part.alt;
    const Lengths& lengths = context_.lengths();
    draw(triangle_mark(alt, context_), lengths.triangle_width + lengths.triangle_gap);
  }

  std::vector<Piece> take() { return std::move(pieces_); }

 private:
  void draw(Mark mark, double width) {
    Piece piece;
    piece.type = base_;
    piece.width = piece.visible = width;
    piece.drawn.push_back(std::move(mark));
    pieces_.push_back(std::move(piece));
  }

  Piece piece_of(const std::string& text, const Type& type) const {
    return piece_of(checked(text, context_), type);
  }

  Piece piece_of(const std::u32string& characters, const Type& type) const {
    Piece piece;
    piece.text = to_utf8(characters);
    piece.type = type;
    piece.width = context_.width(characters, type);
    const std::size_t end = characters.find_last_not_of(U' ');
    const std::size_t spaces =
        end == characters.npos ? characters.size() : characters.size() - end - 1;
    piece.visible = piece.width - static_cast<double>(spaces) * context_.width(U" ", type);
    return piece;
  }

  void cut(const std::string& text, const Type& type) {
    const std::u32string characters = checked(text, context_);
    std::u32string part;
    for (std::size_t i = 0; i < characters.size(); ++i) {
      const char32_t c = characters[i];
      if (c != soft_hyphen && c != zero_width_space) part += c;
      const Piece::Break after = break_behind(characters, i);
      if (after == Piece::Break::none && i + 1 < characters.size()) continue;
      if (part.empty()) {
        if (!pieces_.empty() && pieces_.back().after == Piece::Break::none) {
          pieces_.back().after = after;
        }
        continue;
      }
      Piece piece = piece_of(part, type);
      piece.after = after;
      if (after == Piece::Break::soft_hyphen) piece.hyphen = context_.width("\u00AD", type);
      pieces_.push_back(std::move(piece));
      part.clear();
    }
  }

  Type base_;
  const Context& context_;
  std::vector<Piece> pieces_;
};

}  // namespace

std::vector<Piece> pieces_of(const Words& words, const Type& type, const Context& context) {
  Cutter cutter(type, context);
  for (const Inline& part : words.parts) std::visit(cutter, part);
  return cutter.take();
}

}  // namespace tub::layout
