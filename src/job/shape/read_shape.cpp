#include "job/shape/read_shape.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <chrono>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/nearest.h"
#include "base/text.h"
#include "job/read/read_quantity.h"
#include "job/shape/comment.h"

namespace tub::job {
namespace {

std::optional<int> digits(std::string_view text) {
  int value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = 10 * value + (c - '0');
  }
  return value;
}

// A number that is in range when its decimal point is moved; nothing if none is.
std::optional<double> with_point_moved(double found, double low, double high) {
  for (const double factor : {0.1, 0.01, 10.0}) {
    const double moved = std::round(found * factor * 1e6) / 1e6;
    if (moved >= low && moved <= high) return moved;
  }
  return std::nullopt;
}

void check_character(char32_t character, const Node& node, const Catalogue& catalogue) {
  const bool is_control = character < 0x20 || (character >= 0x7F && character < 0xA0);
  if (is_control) {
    node.problem(fmt::format("the text holds the control character {}", code_point_name(character)),
                 "remove it");
  } else if (!catalogue.has_character(character)) {
    node.problem(fmt::format("the sheets' fonts lack the character {} ({})", to_utf8(character),
                             code_point_name(character)),
                 "write it with other characters");
  }
}

// True where a number is written, with a unit or without; also as an object that says more of it.
bool takes_number(const FieldShape& shape) {
  if (const auto* const either = std::get_if<EitherShape>(&shape.form)) {
    return takes_number(*either->plain);
  }
  return std::holds_alternative<NumberShape>(shape.form) ||
         std::holds_alternative<QuantityShape>(shape.form);
}

bool are_alike(std::string_view one, std::string_view other) {
  return std::equal(one.begin(), one.end(), other.begin(), other.end(), [](char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) ==
           std::tolower(static_cast<unsigned char>(b));
  });
}

// What to write where no such name is known.
std::string instead_of(const std::string& found, const NameShape& shape,
                       const EverydayWords& words) {
  for (const auto& [written, name] : shape.meant) {
    if (are_alike(found, written)) return fmt::format("write {}", name);
  }
  if (!shape.help.empty()) return shape.help;
  return words.what_to_write(shape.what, found, shape.usable)
      .value_or(suggestion(found, shape.usable));
}

class ShapeReader {
 public:
  ShapeReader(const Node& node, const Catalogue& catalogue) : node_(node), catalogue_(catalogue) {}

  Value::Content operator()(const TextShape& shape) const {
    const auto text = text_here();
    if (!text) return {};
    std::u32string characters = *code_points(*text);
    if (is_all_blank(characters)) {
      node_.problem(characters.empty() ? "the text is empty" : "the text is nothing but blanks",
                    "write something, or remove the field");
      return {};
    }
    if (characters.size() > shape.longest) {
      node_.problem(
          fmt::format("expected at most {} characters, found {}", shape.longest, characters.size()),
          "shorten the text");
      return {};
    }
    std::sort(characters.begin(), characters.end());
    characters.erase(std::unique(characters.begin(), characters.end()), characters.end());
    for (const char32_t character : characters) check_character(character, node_, catalogue_);
    return *text;
  }

  Value::Content operator()(const PathShape&) const {
    const auto text = text_here();
    if (!text) return {};
    const bool is_plain = !text->empty() && std::none_of(text->begin(), text->end(),
                                                         [](char c) { return c == '\0'; });
    if (is_plain) return *text;
    node_.problem("expected the path of a file, found " + node_.shown(), "name the file");
    return {};
  }

  Value::Content operator()(const DateShape&) const {
    const auto text = text_here();
    if (!text) return {};
    if (date_from(*text)) return *text;
    node_.problem(fmt::format("expected a day as \"2026-05-04\", found {}", node_.shown()),
                  "write year, month and day, from 2000 to 2099");
    return {};
  }

  Value::Content operator()(const NumberShape& shape) const {
    if (node_.is_number()) {
      const double found = *node_.number();
      if (found >= shape.low && found <= shape.high) return found;
      report_range(shape, found);
    } else {
      node_.problem(fmt::format("expected a bare number from {} to {}, found {}",
                                shortest(shape.low), shortest(shape.high), node_.shown()),
                    "write the number alone: " + number_meant().value_or("7.4"));
    }
    return {};
  }

  Value::Content operator()(const WholeShape& shape) const {
    const double found = node_.is_number() ? *node_.number() : -1;
    if (found == std::floor(found) && found >= shape.low && found <= shape.high) return found;
    node_.problem(fmt::format("expected a whole number from {} to {}, found {}", shape.low,
                              shape.high, node_.shown()),
                  "write the count alone, without a unit");
    return {};
  }

  Value::Content operator()(const FlagShape&) const {
    if (node_.json().is_boolean()) return *node_.boolean();
    node_.problem("expected true or false, found " + node_.shown(), "write true or false");
    return {};
  }

  Value::Content operator()(const VersionShape& shape) const {
    if (node_.is_number() && *node_.number() == shape.version)
      return static_cast<double>(shape.version);
    node_.problem(fmt::format("expected {}, found {}", shape.version, node_.shown()),
                  fmt::format("this program reads version {} of the format", shape.version));
    return {};
  }

  Value::Content operator()(const NameShape& shape) const {
    const auto found = text_here();
    if (!found) return {};
    const auto holds = [&](const std::vector<std::string>& names) {
      return std::find(names.begin(), names.end(), *found) != names.end();
    };
    if (holds(shape.usable)) return *found;
    if (holds(shape.known)) {
      node_.problem(fmt::format("the {} \"{}\" is not in this version", shape.what, *found),
                    fmt::format("in this version: {}", fmt::join(shape.usable, ", ")));
    } else {
      node_.problem(fmt::format("there is no {} \"{}\"", shape.what, shortened(*found)),
                    instead_of(*found, shape, catalogue_.words));
    }
    return {};
  }

  Value::Content operator()(const QuantityShape& shape) const {
    const auto value = read_quantity(node_, shape);
    return value ? Value::Content(*value) : Value::Content();
  }
  Value::Content operator()(const StrengthShape&) const { return content(read_strength(node_)); }
  Value::Content operator()(const DoseShape&) const { return content(read_dose(node_)); }
  Value::Content operator()(const AmountShape&) const { return content(read_amount(node_)); }

  Value::Content operator()(const ObjectShape& shape) const {
    if (!node_.is_object()) {
      node_.problem("expected an object, found " + node_.shown(), "write { … }");
      return {};
    }
    report_unknown(shape);
    Value::Members members;
    for (const Field& field : shape.fields) {
      const auto member = node_.find(field.name);
      if (member) {
        members.emplace(field.name, report_no_number(field, *member)
                                        ? Value(*member, {})
                                        : read_shape(*member, field.shape, catalogue_));
      } else if (field.presence == Presence::required) {
        node_.problem(fmt::format("the field \"{}\" is missing", field.name),
                      field.missing_help.empty() ? fmt::format("add it: {}", field.about)
                                                 : field.missing_help);
      }
    }
    return members;
  }

  Value::Content operator()(const ListShape& shape) const {
    if (!node_.is_array()) {
      node_.problem("expected a list, found " + node_.shown(), "write [ … ]");
      return {};
    }
    if (const std::size_t found = node_.json().size(); found > shape.most) {
      node_.problem(fmt::format("the list holds {} entries, and at most {} are read",
                                in_thousands(found), shape.most),
                    shape.long_help);
      return {};
    }
    std::vector<Value> values;
    for (const Node& item : node_.items()) {
      values.push_back(read_shape(item, *shape.item, catalogue_));
    }
    if (values.size() < shape.least) node_.problem("the list is empty", shape.empty_help);
    return values;
  }

  Value::Content operator()(const EitherShape& shape) const {
    const bool takes_list = std::holds_alternative<ListShape>(shape.object->form);
    const bool is_other = takes_list ? node_.is_array() : node_.is_object();
    const FieldShape& chosen = is_other ? *shape.object : *shape.plain;
    return std::visit(*this, chosen.form);
  }

 private:
  template <class T>
  static Value::Content content(const std::optional<T>& read) {
    return read ? Value::Content(*read) : Value::Content();
  }

  std::optional<std::string> text_here() const {
    if (node_.is_text()) return node_.text();
    node_.problem("expected a text, found " + node_.shown(), "write a text in quotes");
    return std::nullopt;
  }

  // "7,4" and "7.4" as the number 7.4; nothing if the text is no number.
  std::optional<std::string> number_meant() const {
    if (!node_.is_text()) return std::nullopt;
    const std::string point = replaced(std::string(trimmed(*node_.text())), ",", ".");
    const auto number = to_number(point);
    return number ? std::optional(shortest(*number)) : std::nullopt;
  }

  // True, and reported, if words say that there is no number.
  bool report_no_number(const Field& field, const Node& member) const {
    if (!member.is_text() || !takes_number(field.shape)) return false;
    const std::string text = *member.text();
    const bool is_needed = field.presence == Presence::required;
    const std::string otherwise = !is_needed ? "remove the field: what nobody measured is left out"
                                  : field.missing_help.empty() ? "put it in: " + field.about
                                                               : field.missing_help;
    if (catalogue_.words.means_not_known(text)) {
      member.problem(fmt::format("expected a number, found {}", member.shown()), otherwise);
      return true;
    }
    if (!catalogue_.words.means_nothing_found(text)) return false;
    member.problem(fmt::format("expected a number, found {}", member.shown()),
                   fmt::format("write 0, with its unit, if it was tested and there was none; if it "
                               "was not tested, {}",
                               otherwise));
    return true;
  }

  void report_range(const NumberShape& shape, double found) const {
    const auto moved = with_point_moved(found, shape.low, shape.high);
    node_.problem(fmt::format("expected a number from {} to {}, found {}", shortest(shape.low),
                              shortest(shape.high), node_.shown()),
                  moved ? fmt::format("did you mean {}?", shortest(*moved)) : "test it again");
  }

  void report_unknown(const ObjectShape& shape) const {
    std::vector<std::string> names;
    for (const Field& field : shape.fields) names.push_back(field.name);
    for (const Node::Member& member : node_.members()) {
      if (is_comment(member.name)) {
        if (!member.value.is_text()) {
          member.value.problem("expected a comment as a text, found " + member.value.shown(),
                               "quote it, or name the field without //");
        }
      } else if (std::find(names.begin(), names.end(), member.name) == names.end()) {
        member.value.unknown(member.name, names);
      }
    }
  }

  Node node_;
  const Catalogue& catalogue_;
};

}  // namespace

Value read_shape(const Node& node, const FieldShape& shape, const Catalogue& catalogue) {
  if (node.is_null()) {
    node.problem("this is not filled in", "put in what was found, or remove the field");
    return {node, {}};
  }
  return {node, std::visit(ShapeReader(node, catalogue), shape.form)};
}

std::optional<CalendarDate> date_from(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = digits(text.substr(0, 4));
  const auto month = digits(text.substr(5, 2));
  const auto day = digits(text.substr(8, 2));
  if (!year || !month || !day || *year < 2000 || *year > 2099) return std::nullopt;
  const std::chrono::year_month_day date = std::chrono::year(*year) /
                                           std::chrono::month(static_cast<unsigned>(*month)) /
                                           std::chrono::day(static_cast<unsigned>(*day));
  if (!date.ok()) return std::nullopt;
  return CalendarDate{*year, *month, *day};
}

}  // namespace tub::job
