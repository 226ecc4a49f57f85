#include "base/node.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <unordered_set>

#include "base/nearest.h"
#include "base/text.h"

namespace tub {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t deepest = 100;

struct Place {
  std::size_t line = 1;
  std::size_t column = 1;
};

Place place_of(std::string_view text, std::size_t byte) {
  Place place;
  for (std::size_t i = 0; i < std::min(byte, text.size()); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    if (c == '\n') {
      ++place.line;
      place.column = 1;
    } else if ((c & 0xC0U) != 0x80U) {
      ++place.column;
    }
  }
  return place;
}

// Where the bracket stands that opens one level too many; text within quotes opens none.
std::size_t too_deep_at(std::string_view text) {
  std::size_t depth = 0;
  bool is_quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '"') is_quoted = !is_quoted;
    if (is_quoted && c == '\\') ++i;
    if (is_quoted) continue;
    if ((c == '[' || c == '{') && ++depth > deepest) return i;
    if (c == ']' || c == '}') --depth;
  }
  return text.size();
}

// Builds the tree, reports every name that an object has twice, and remembers where the text broke.
class TreeBuilder : public nlohmann::json_sax<Json> {
 public:
  TreeBuilder(const std::string& file, Problems& problems) : file_(file), problems_(problems) {}

  bool null() override { return put(nullptr); }
  bool boolean(bool value) override { return put(value); }
  bool number_integer(number_integer_t value) override { return put(value); }
  bool number_unsigned(number_unsigned_t value) override { return put(value); }
  bool number_float(number_float_t value, const string_t&) override { return put(value); }
  bool string(string_t& value) override { return put(composed(value)); }
  bool binary(binary_t&) override { return false; }
  bool start_object(std::size_t) override { return open(Json::object()); }
  bool key(string_t& written) override {
    const std::string name = composed(written);
    Level& level = open_.back();
    level.is_repeated = !level.names.insert(name).second;
    if (level.is_repeated) report_repeated(name);
    level.name = name;
    return true;
  }
  bool end_object() override { return close(); }
  bool start_array(std::size_t) override { return open(Json::array()); }
  bool end_array() override { return close(); }
  bool parse_error(std::size_t position, const std::string& token,
                   const nlohmann::detail::exception& exception) override {
    byte = position == 0 ? 0 : position - 1;
    last_token = token;
    out_of_range = exception.id == 406;
    return false;
  }

  Json root;
  std::size_t byte = 0;
  std::string last_token;
  bool out_of_range = false;
  bool too_deep = false;

 private:
  struct Level {
    Json value;
    std::string name;  // where the next value of an object goes
    bool is_repeated = false;
    std::unordered_set<std::string> names{};
  };

  bool put(Json value) {
    if (open_.empty()) {
      root = std::move(value);
    } else if (open_.back().value.is_array()) {
      open_.back().value.push_back(std::move(value));
    } else if (Level& level = open_.back(); !level.is_repeated) {
      // Its own insertion would compare the name with all others.
      level.value.get_ref<Json::object_t&>().emplace_back(level.name, std::move(value));
    }
    return true;
  }
  bool open(Json value) {
    too_deep = open_.size() >= deepest;
    if (!too_deep) open_.push_back({std::move(value), "", false, {}});
    return !too_deep;
  }
  bool close() {
    Json value = std::move(open_.back().value);
    open_.pop_back();
    return put(std::move(value));
  }
  std::string pointer() const {
    std::string result;
    for (std::size_t i = 0; i + 1 < open_.size(); ++i) {
      const Level& level = open_[i];
      result += "/" + (level.value.is_array() ? std::to_string(level.value.size())
                                              : pointer_step(level.name));
    }
    return result;
  }

  void report_repeated(const std::string& name) {
    std::string message =
        fmt::format("the field \"{}\" stands here more than once", shortened(name));
    std::string where;
    if (problems_.has_room_for(message)) {
      where = file_ + ": " + pointer() + "/" + pointer_step(name);
    }
    problems_.add({std::move(message), std::move(where), {}, "keep one of them"});
  }

  const std::string& file_;
  Problems& problems_;
  std::vector<Level> open_;
};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// "7.4" where the text broke in an unquoted 7,4; nothing where it broke otherwise.
std::optional<std::string> with_decimal_point(std::string_view text, std::size_t byte) {
  std::size_t comma = std::min(byte, text.size());
  while (comma > 0 && is_digit(text[comma - 1])) --comma;
  if (comma < 2 || text[comma - 1] != ',' || !is_digit(text[comma - 2])) return std::nullopt;
  std::size_t end = comma--;
  while (end < text.size() && is_digit(text[end])) ++end;
  if (end == comma + 1) return std::nullopt;
  std::size_t start = comma;
  while (start > 0 && is_digit(text[start - 1])) --start;
  return std::string(text.substr(start, comma - start)) + "." +
         std::string(text.substr(comma + 1, end - comma - 1));
}

[[noreturn]] void throw_malformed(std::string_view text, const std::string& file,
                                  const TreeBuilder& builder) {
  const Place place = place_of(text, builder.too_deep ? too_deep_at(text) : builder.byte);
  Diagnostic diagnostic;
  diagnostic.where = fmt::format("{}: line {}, column {}", file, place.line, place.column);
  if (builder.too_deep) {
    diagnostic.message = fmt::format("the JSON is nested deeper than {} levels", deepest);
    diagnostic.help = "remove the extra brackets";
  } else if (builder.out_of_range) {
    diagnostic.message =
        fmt::format("the number {} is too large to be read", shortened(builder.last_token));
    diagnostic.help = "write the number as it was measured";
  } else if (!code_points(text)) {
    diagnostic.message = "the text is not UTF-8";
    diagnostic.help = "save the file as UTF-8";
  } else if (builder.byte >= text.size()) {
    diagnostic.message = "the JSON ends too early";
    diagnostic.help = "close every bracket, brace and quote";
  } else if (const auto decimal = with_decimal_point(text, builder.byte)) {
    diagnostic.message = "a number has a comma in it: " + replaced(*decimal, ".", ",");
    diagnostic.help = "write " + *decimal;
  } else {
    diagnostic.message =
        fmt::format("the JSON cannot be read further, at `{}`", shortened(builder.last_token));
    diagnostic.help = "look for a missing or extra comma, quote or bracket just before this place";
  }
  throw Error(diagnostic);
}

// The parser takes a NUL for the end of the text, whatever follows it.
void require_no_nul(std::string_view text, const std::string& file) {
  const std::size_t nul = text.find('\0');
  if (nul == std::string_view::npos) return;
  const Place place = place_of(text, nul);
  throw Error(Diagnostic{"the text holds a NUL (U+0000), and nothing after it would be read",
                         fmt::format("{}: line {}, column {}", file, place.line, place.column),
                         {},
                         "remove it and what does not belong there; save the file as UTF-8"});
}

const char* kind_of(const Json& value) {
  if (value.is_object()) return "an object";
  if (value.is_array()) return "a list";
  if (value.is_string()) return "a text";
  if (value.is_number()) return "a number";
  if (value.is_boolean()) return "true or false";
  return "null";
}

}  // namespace

std::string pointer_step(std::string_view name) {
  return replaced(replaced(shortened(name), "~", "~0"), "/", "~1");
}

Node::Node(std::shared_ptr<const Json> tree, const Json* value,
           std::shared_ptr<const std::string> file, std::string pointer, Problems* problems)
    : tree_(std::move(tree)),
      value_(value),
      file_(std::move(file)),
      pointer_(std::move(pointer)),
      problems_(problems) {}

Node Node::parse(std::string_view text, const std::string& file, Problems& problems) {
  require_no_nul(text, file);
  TreeBuilder builder(file, problems);
  if (!Json::sax_parse(text, &builder)) throw_malformed(text, file, builder);
  return over(std::make_shared<const Json>(std::move(builder.root)), file, problems);
}

Node Node::over(std::shared_ptr<const Json> tree, const std::string& file, Problems& problems) {
  const Json* const root = tree.get();
  return {std::move(tree), root, std::make_shared<const std::string>(file), "", &problems};
}

Node Node::child(const Json& value, std::string_view step) const {
  return {tree_, &value, file_, pointer_ + "/" + pointer_step(step), problems_};
}

bool Node::is_object() const { return value_->is_object(); }
bool Node::is_array() const { return value_->is_array(); }
bool Node::is_text() const { return value_->is_string(); }
bool Node::is_number() const { return value_->is_number(); }
bool Node::is_null() const { return value_->is_null(); }

std::optional<Node> Node::find(std::string_view name) const {
  if (!is_object()) return std::nullopt;
  const auto found = value_->find(std::string(name));
  if (found == value_->end()) return std::nullopt;
  return child(*found, name);
}

std::optional<Node> Node::require(std::string_view name) const {
  std::optional<Node> found = find(name);
  if (found) return found;
  if (is_object()) {
    problem(fmt::format("the field \"{}\" is missing", name), fmt::format("add \"{}\"", name));
  } else {
    problem(fmt::format("expected an object with \"{}\", found {}", name, shown()));
  }
  return std::nullopt;
}

std::vector<Node::Member> Node::members() const {
  std::vector<Member> result;
  if (!is_object()) {
    problem(fmt::format("expected an object, found {}", shown()));
    return result;
  }
  for (const auto& [name, value] : value_->items()) result.push_back({name, child(value, name)});
  return result;
}

std::vector<Node> Node::items() const {
  std::vector<Node> result;
  if (!is_array()) {
    problem(fmt::format("expected a list, found {}", shown()));
    return result;
  }
  for (std::size_t i = 0; i < value_->size(); ++i) {
    result.push_back(child((*value_)[i], std::to_string(i)));
  }
  return result;
}

std::optional<std::string> Node::text() const {
  if (is_text()) return value_->get<std::string>();
  problem(fmt::format("expected a text, found {}", shown()));
  return std::nullopt;
}

std::optional<double> Node::number() const {
  if (is_number()) return value_->get<double>();
  problem(fmt::format("expected a number, found {}", shown()));
  return std::nullopt;
}

std::optional<double> Node::number(double low, double high) const {
  if (is_number()) {
    const auto value = value_->get<double>();
    if (value >= low && value <= high) return value;
  }
  problem(fmt::format("expected a number from {} to {}, found {}", shortest(low), shortest(high),
                      shown()));
  return std::nullopt;
}

std::optional<int> Node::whole(int low, int high) const {
  if (is_number()) {
    const auto value = value_->get<double>();
    if (value == std::floor(value) && value >= low && value <= high) return static_cast<int>(value);
  }
  problem(fmt::format("expected a whole number from {} to {}, found {}", low, high, shown()));
  return std::nullopt;
}

std::optional<bool> Node::boolean() const {
  if (value_->is_boolean()) return value_->get<bool>();
  problem(fmt::format("expected true or false, found {}", shown()));
  return std::nullopt;
}

std::optional<std::string> Node::one_of(std::span<const std::string> known) const {
  const std::optional<std::string> found = text();
  if (!found) return std::nullopt;
  if (std::find(known.begin(), known.end(), *found) != known.end()) return found;
  problem(fmt::format("\"{}\" is not known here", shortened(*found)), suggestion(*found, known));
  return std::nullopt;
}

void Node::allow_only(std::span<const std::string> known) const {
  if (!is_object()) return;
  for (const auto& [name, value] : value_->items()) {
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    child(value, name).unknown(name, known);
  }
}

void Node::unknown(std::string_view name, std::span<const std::string> known) const {
  std::string message = fmt::format("the field \"{}\" is not known here", shortened(name));
  std::string help;
  if (problems_->has_room_for(message)) help = suggestion(name, known);
  problem(std::move(message), std::move(help));
}

void Node::problem(std::string message, std::string help) const {
  problems_->add({std::move(message), where(), {}, std::move(help)});
}

std::string Node::where() const { return *file_ + ": " + (pointer_.empty() ? "/" : pointer_); }

std::string Node::shown() const {
  if (is_object() || is_array()) return kind_of(*value_);
  std::string text = value_->dump(-1, ' ', false, Json::error_handler_t::replace);
  constexpr std::size_t longest = 60;
  if (text.size() <= longest) return text;
  const auto points = code_points(text);
  return to_utf8(points->substr(0, longest - 3)) + "…\"";
}

}  // namespace tub
