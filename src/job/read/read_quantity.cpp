#include "job/read/read_quantity.h"

#include <fmt/format.h>

namespace tub::job {
namespace {

// A quantity and its unit take less; messages show all of a quantity.
constexpr std::size_t longest = 100;

// The text that stands here; a problem if it is a bare number, no text at all or a very long one.
std::optional<std::string> text_at(const Node& node, const std::string& example) {
  if (node.is_text() && node.text()->size() <= longest) return node.text();
  const char* const what = node.is_number() ? "expected a number with its unit, found the bare {}"
                                            : "expected a number with its unit, found {}";
  node.problem(fmt::format(fmt::runtime(what), node.shown()),
               fmt::format("write it as a text: \"{}\"", example));
  return std::nullopt;
}

std::string name_of(QuantityKind kind) { return description_of(kind).name; }

// The same number in degrees Fahrenheit, where that is within range and Celsius is not.
std::optional<std::string> in_fahrenheit(double celsius_value, const QuantityShape& shape) {
  const double as_fahrenheit = (celsius_value - 32) / 1.8;
  const bool fits = shape.kind == QuantityKind::temperature && as_fahrenheit >= shape.low &&
                    as_fahrenheit <= shape.high && celsius_value > shape.high + 20;
  if (!fits) return std::nullopt;
  return fmt::format("did you mean {} °F?", celsius_value);
}

std::string help_for(double value, const QuantityShape& shape) {
  if (const auto fahrenheit = in_fahrenheit(value, shape)) return *fahrenheit;
  if (!shape.help.empty()) return shape.help;
  return fmt::format("check the number and its unit; it is written as \"{}\"", shape.example);
}

std::optional<Measured> amount_from(const Node& node, const ParsedAmount& parsed) {
  if (!parsed.value) {
    node.problem(parsed.problem, parsed.help);
    return std::nullopt;
  }
  if (*parsed.value <= 0) {
    node.problem(fmt::format("expected an amount above 0, found {}", node.shown()),
                 "write the amount on the label");
    return std::nullopt;
  }
  return Measured{*parsed.value, parsed.unit == ParsedAmount::Unit::grams ? "g" : "mL"};
}

}  // namespace

std::optional<double> read_quantity(const Node& node, const QuantityShape& shape) {
  const auto text = text_at(node, shape.example);
  if (!text) return std::nullopt;
  const ParsedQuantity parsed = parse_quantity(shape.kind, *text);
  if (!parsed.value) {
    node.problem(parsed.problem, parsed.help);
    return std::nullopt;
  }
  if (*parsed.value >= shape.low && *parsed.value <= shape.high) return parsed.value;
  node.problem(fmt::format("expected {} from {} to {}, found {}", name_of(shape.kind),
                           in_own_unit(shape.kind, shape.low), in_own_unit(shape.kind, shape.high),
                           node.shown()),
               help_for(*parsed.value, shape));
  return std::nullopt;
}

std::optional<Measured> read_strength(const Node& node) {
  const auto text = text_at(node, "12.5 g/100 mL as Cl2");
  if (!text) return std::nullopt;
  const ParsedStrength parsed = parse_strength(*text);
  if (parsed.value) return Measured{*parsed.value, parsed.basis};
  node.problem(parsed.problem, parsed.help);
  return std::nullopt;
}

std::optional<Measured> read_dose(const Node& node) {
  const auto text = text_at(node, "45 mL per 1000 L");
  return text ? amount_from(node, parse_dose(*text)) : std::nullopt;
}

std::optional<Measured> read_amount(const Node& node) {
  const auto text = text_at(node, "2 kg");
  if (!text) return std::nullopt;
  const ParsedAmount parsed = parse_amount(*text);
  const ParsedAmount by_weight = parse_amount(*text + " av");
  if (parsed.value || !by_weight.value) return amount_from(node, parsed);
  const auto amount = amount_from(node, by_weight);
  return amount ? std::optional<Measured>({amount->value, "oz"}) : std::nullopt;
}

void require_solid(const Node& node, const Measured& amount, bool is_liquid) {
  if (!is_liquid || amount.unit != "oz") return;
  const ParsedAmount parsed = parse_amount(*node.text());
  node.problem(parsed.problem, parsed.help);
}

}  // namespace tub::job
