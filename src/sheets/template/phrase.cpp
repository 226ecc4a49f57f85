// Reading inline marks: one pass over the bytes, one weight at a time.
#include "sheets/template/phrase.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace tub::sheets {
namespace {

using PartKind = PhrasePart::Kind;
using Weight = PhrasePart::Weight;

constexpr double millimetres_an_underscore = 2;
constexpr std::size_t shortest_line = 3;

bool is_name_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '.';
}

class PhraseReader {
 public:
  explicit PhraseReader(std::string_view text) : text_(text) {}

  Phrase read() {
    while (at_ < text_.size() && phrase_.fault.empty()) step();
    flush();
    if (phrase_.fault.empty() && weight_ != Weight::regular) {
      fail(fmt::format("the mark `{}` is opened and not closed", opened_), "close it");
    }
    return std::move(phrase_);
  }

 private:
  void step() {
    const char c = text_[at_];
    if (c == '\\') return take_escaped();
    if (c == '{') return take_placeholder();
    if (c == '*') return turn(Weight::bold, c);
    if (c == '~') return turn(Weight::small, c);
    if (c == '[' || c == ']') return take_bracket(c);
    if (c == '}') return fail("a `}` stands without its `{`", "write `\\}` to print it");
    if (c == '_' && underscores() >= shortest_line) return take_line();
    literal_ += c;
    ++at_;
  }

  void take_escaped() {
    if (at_ + 1 >= text_.size()) {
      return fail("a backslash stands at the end", "write `\\\\` to print it");
    }
    literal_ += text_[at_ + 1];
    at_ += 2;
  }

  void take_placeholder() {
    const std::size_t end = text_.find('}', at_);
    if (end == std::string_view::npos) {
      return fail("a `{` is opened and not closed", "write `\\{` to print it");
    }
    const std::string name(text_.substr(at_ + 1, end - at_ - 1));
    if (name.empty() || !std::all_of(name.begin(), name.end(), is_name_character)) {
      return fail(fmt::format("`{{{}}}` is not a placeholder's name", name),
                  "names are small letters, digits, `_` and `.`");
    }
    flush();
    phrase_.parts.push_back({PartKind::placeholder, weight_, name, 0});
    at_ = end + 1;
  }

  void take_line() {
    flush();
    const std::size_t count = underscores();
    phrase_.parts.push_back({PartKind::line, Weight::regular, "",
                             static_cast<double>(count) * millimetres_an_underscore});
    at_ += count;
  }

  void take_bracket(char c) {
    const bool opens = c == '[';
    if (opens == (weight_ == Weight::band)) {
      return fail(opens ? "a `[` stands inside a target" : "a `]` stands without its `[`",
                  fmt::format("write `\\{}` to print it", c));
    }
    turn(Weight::band, c);
  }

  void turn(Weight weight, char mark) {
    if (weight_ != Weight::regular && weight_ != weight) {
      return fail(fmt::format("the mark `{}` stands inside `{}`", mark, opened_),
                  "close one before the next is opened");
    }
    flush();
    weight_ = weight_ == weight ? Weight::regular : weight;
    opened_ = mark;
    ++at_;
  }

  std::size_t underscores() const {
    const std::size_t end = text_.find_first_not_of('_', at_);
    return (end == std::string_view::npos ? text_.size() : end) - at_;
  }

  void flush() {
    if (!literal_.empty()) phrase_.parts.push_back({PartKind::text, weight_, literal_, 0});
    literal_.clear();
  }

  void fail(std::string fault, std::string help) {
    phrase_.fault = std::move(fault);
    phrase_.help = std::move(help);
  }

  std::string_view text_;
  std::size_t at_ = 0;
  Weight weight_ = Weight::regular;
  char opened_ = ' ';
  std::string literal_;
  Phrase phrase_;
};

template <class Part>
void append_part(Words& words, std::string text) {
  if (!words.parts.empty()) {
    if (auto* const last = std::get_if<Part>(&words.parts.back())) {
      last->text += text;
      return;
    }
  }
  words.parts.emplace_back(Part{std::move(text)});
}

}  // namespace

Phrase read_phrase(std::string_view text) { return PhraseReader(text).read(); }

std::vector<std::string> placeholders_of(const Phrase& phrase) {
  std::vector<std::string> names;
  for (const PhrasePart& part : phrase.parts) {
    if (part.kind != PartKind::placeholder) continue;
    if (std::find(names.begin(), names.end(), part.text) == names.end()) names.push_back(part.text);
  }
  return names;
}

void append(Words& words, Weight weight, std::string text) {
  if (text.empty()) return;
  switch (weight) {
    case Weight::regular:
      return append_part<Plain>(words, std::move(text));
    case Weight::bold:
      return append_part<Bold>(words, std::move(text));
    case Weight::small:
      return append_part<Small>(words, std::move(text));
    case Weight::band:
      return append_part<Band>(words, std::move(text));
  }
}

void append(Words& words, Weight weight, const Words& added) {
  for (const Inline& part : added.parts) {
    if (const auto* const text = std::get_if<Plain>(&part)) {
      append(words, weight, text->text);
    } else if (const auto* const bold = std::get_if<Bold>(&part)) {
      append(words, Weight::bold, bold->text);
    } else {
      words.parts.push_back(part);
    }
  }
}

}  // namespace tub::sheets
