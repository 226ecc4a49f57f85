// Reads a style: every member of its structs has a name in the file.
#include "layout/type/style.h"

#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "base/node.h"

namespace tub::layout {
namespace {

template <class Struct, class Value>
using Members = std::vector<std::pair<std::string, Value Struct::*>>;

const Members<Inks, Colour> ink_members = {
    {"black", &Inks::black},         {"band", &Inks::band},     {"accent", &Inks::accent},
    {"mandatory", &Inks::mandatory}, {"hazard", &Inks::hazard}, {"paper", &Inks::paper},
};

const Members<Types, Type> type_members = {
    {"figure", &Types::figure},
    {"title", &Types::title},
    {"kind", &Types::kind},
    {"short_title", &Types::short_title},
    {"short_figure", &Types::short_figure},
    {"heading", &Types::heading},
    {"body", &Types::body},
    {"small", &Types::small},
    {"channel_head", &Types::channel_head},
    {"channel_title", &Types::channel_title},
    {"channel_number", &Types::channel_number},
    {"limit", &Types::limit},
    {"notice_word", &Types::notice_word},
    {"key", &Types::key},
    {"named_key", &Types::named_key},
    {"rung_title", &Types::rung_title},
    {"aside", &Types::aside},
    {"amount", &Types::amount},
    {"spoons", &Types::spoons},
    {"spoons_under", &Types::spoons_under},
    {"second_amount", &Types::second_amount},
    {"second_spoons", &Types::second_spoons},
    {"table_amount", &Types::table_amount},
    {"table_spoons", &Types::table_spoons},
    {"table_limit", &Types::table_limit},
    {"product", &Types::product},
    {"table_reading", &Types::table_reading},
    {"target", &Types::target},
    {"signal", &Types::signal},
    {"foot", &Types::foot},
};

const Members<Lengths, double> length_members = {
    {"margin_side", &Lengths::margin_side},
    {"margin_top", &Lengths::margin_top},
    {"foot_margin", &Lengths::foot_margin},
    {"foot_space", &Lengths::foot_space},
    {"page_width_least", &Lengths::page_width_least},
    {"page_height_least", &Lengths::page_height_least},
    {"block_space", &Lengths::block_space},
    {"paragraph_space", &Lengths::paragraph_space},
    {"close_space", &Lengths::close_space},
    {"hairline", &Lengths::hairline},
    {"table_rule", &Lengths::table_rule},
    {"bank", &Lengths::bank},
    {"stile", &Lengths::stile},
    {"masthead_rule", &Lengths::masthead_rule},
    {"notice_frame", &Lengths::notice_frame},
    {"target_frame", &Lengths::target_frame},
    {"title_gap", &Lengths::title_gap},
    {"rule_above", &Lengths::rule_above},
    {"rule_below", &Lengths::rule_below},
    {"fact_gap", &Lengths::fact_gap},
    {"fact_gap_least", &Lengths::fact_gap_least},
    {"logo_width", &Lengths::logo_width},
    {"logo_height", &Lengths::logo_height},
    {"chip_padding", &Lengths::chip_padding},
    {"tick", &Lengths::tick},
    {"small_tick", &Lengths::small_tick},
    {"tick_drop", &Lengths::tick_drop},
    {"small_tick_drop", &Lengths::small_tick_drop},
    {"tick_line", &Lengths::tick_line},
    {"tick_gap", &Lengths::tick_gap},
    {"triangle_width", &Lengths::triangle_width},
    {"triangle_height", &Lengths::triangle_height},
    {"triangle_drop", &Lengths::triangle_drop},
    {"triangle_gap", &Lengths::triangle_gap},
    {"arrow_width", &Lengths::arrow_width},
    {"arrow_height", &Lengths::arrow_height},
    {"channel_name", &Lengths::channel_name},
    {"channel_now", &Lengths::channel_now},
    {"channel_after", &Lengths::channel_after},
    {"channel_row", &Lengths::channel_row},
    {"channel_head", &Lengths::channel_head},
    {"plot_left", &Lengths::plot_left},
    {"plot_right", &Lengths::plot_right},
    {"plot_inset", &Lengths::plot_inset},
    {"ring", &Lengths::ring},
    {"ring_line", &Lengths::ring_line},
    {"bar", &Lengths::bar},
    {"bar_least", &Lengths::bar_least},
    {"run_line", &Lengths::run_line},
    {"limit_gap", &Lengths::limit_gap},
    {"outside_from", &Lengths::outside_from},
    {"key_ring", &Lengths::key_ring},
    {"key_ring_line", &Lengths::key_ring_line},
    {"key_bar_width", &Lengths::key_bar_width},
    {"key_bar_height", &Lengths::key_bar_height},
    {"key_gap", &Lengths::key_gap},
    {"sign", &Lengths::sign},
    {"sign_gap", &Lengths::sign_gap},
    {"small_sign", &Lengths::small_sign},
    {"sign_text_gap", &Lengths::sign_text_gap},
    {"sign_drop", &Lengths::sign_drop},
    {"notice_side", &Lengths::notice_side},
    {"notice_above", &Lengths::notice_above},
    {"notice_below", &Lengths::notice_below},
    {"notice_gap", &Lengths::notice_gap},
    {"ladder_key", &Lengths::ladder_key},
    {"ladder_name", &Lengths::ladder_name},
    {"name_indent", &Lengths::name_indent},
    {"gutter", &Lengths::gutter},
    {"column_gutter", &Lengths::column_gutter},
    {"rung_above", &Lengths::rung_above},
    {"rung_below", &Lengths::rung_below},
    {"hazard_below", &Lengths::hazard_below},
    {"ladder_foot", &Lengths::ladder_foot},
    {"ladder_head_above", &Lengths::ladder_head_above},
    {"ladder_head_below", &Lengths::ladder_head_below},
    {"wait_track", &Lengths::wait_track},
    {"test_track", &Lengths::test_track},
    {"reading_track", &Lengths::reading_track},
    {"point_gap", &Lengths::point_gap},
    {"sentence_gap", &Lengths::sentence_gap},
    {"outcome_gap", &Lengths::outcome_gap},
    {"outcome_above", &Lengths::outcome_above},
    {"spoons_gap", &Lengths::spoons_gap},
    {"second_gap", &Lengths::second_gap},
    {"second_spoons_gap", &Lengths::second_spoons_gap},
    {"cell_above", &Lengths::cell_above},
    {"cell_below", &Lengths::cell_below},
    {"cell_gap", &Lengths::cell_gap},
    {"blank_row", &Lengths::blank_row},
    {"answer_width", &Lengths::answer_width},
    {"answer_height", &Lengths::answer_height},
};

const Members<Shares, double> share_members = {
    {"band_from", &Shares::band_from},
    {"band_to", &Shares::band_to},
};

template <class Struct, class Value>
std::vector<std::string> names_of(const Members<Struct, Value>& members) {
  std::vector<std::string> names;
  for (const auto& member : members) names.push_back(member.first);
  return names;
}

/// Reads every member of an object of the style; a missing or unknown one is a problem.
template <class Struct, class Value, class Read>
Struct read_members(const std::optional<Node>& node, const Members<Struct, Value>& members,
                    const Read& read) {
  Struct result;
  if (!node) return result;
  node->allow_only(names_of(members));
  for (const auto& [name, member] : members) {
    if (const std::optional<Node> value = node->require(name)) result.*member = read(*value);
  }
  return result;
}

std::optional<std::uint8_t> hex_byte(const std::string& text, std::size_t at) {
  const auto digit = [](char c) {
    const std::size_t value = std::string_view("0123456789ABCDEF").find(c);
    return value == std::string_view::npos ? -1 : static_cast<int>(value);
  };
  const int high = digit(text[at]);
  const int low = digit(text[at + 1]);
  if (high < 0 || low < 0) return std::nullopt;
  return static_cast<std::uint8_t>(high * 16 + low);
}

Colour read_colour(const Node& node) {
  const std::string text = node.text().value_or("#000000");
  if (text.size() == 7 && text[0] == '#') {
    const auto red = hex_byte(text, 1);
    const auto green = hex_byte(text, 3);
    const auto blue = hex_byte(text, 5);
    if (red && green && blue) return {*red, *green, *blue};
  }
  node.problem("expected a colour such as \"#63386E\", found " + node.shown());
  return {};
}

Type read_type(const Node& node, const Inks& inks) {
  static const std::vector<std::string> known = {"size", "leading", "weight", "ink"};
  static const std::vector<std::string> weights = {"regular", "bold"};
  node.allow_only(known);
  Type type;
  if (const auto size = node.require("size")) type.size = size->number(1, 500).value_or(1);
  if (const auto leading = node.require("leading")) {
    type.leading = leading->number(1, 500).value_or(1);
  }
  if (const auto weight = node.find("weight")) {
    if (weight->one_of(weights) == "bold") type.face = Face::bold;
  }
  type.ink = inks.black;
  if (const auto ink = node.find("ink")) {
    const std::string name = ink->one_of(names_of(ink_members)).value_or("black");
    for (const auto& [known_name, member] : ink_members) {
      if (known_name == name) type.ink = inks.*member;
    }
  }
  return type;
}

Setting read_setting(const Node& root) {
  static const std::vector<std::string> known = {"inks", "type", "lengths_mm", "shares"};
  root.allow_only(known);
  Setting setting;
  setting.inks = read_members(root.require("inks"), ink_members, read_colour);
  setting.types = read_members(root.require("type"), type_members,
                               [&](const Node& node) { return read_type(node, setting.inks); });
  setting.lengths = read_members(root.require("lengths_mm"), length_members, [](const Node& node) {
    return node.number(0, 1000).value_or(0) * mm;
  });
  setting.shares = read_members(root.require("shares"), share_members,
                                [](const Node& node) { return node.number(0, 1).value_or(0); });
  return setting;
}

}  // namespace

Style Style::parse(std::string_view json, const std::string& file) {
  Problems problems;
  const Node root = Node::parse(json, file, problems);
  nlohmann::ordered_json tree = root.json();
  std::vector<nlohmann::ordered_json> patches;
  if (const std::optional<Node> steps = root.find("give_way")) {
    for (const Node& step : steps->items()) patches.push_back(step.json());
    tree.erase("give_way");
  }
  Style style;
  const auto add = [&] {
    const auto copy = std::make_shared<const nlohmann::ordered_json>(tree);
    style.settings.push_back(read_setting(Node::over(copy, file, problems)));
  };
  add();
  for (std::size_t i = 0; i < patches.size() && problems.empty(); ++i) {
    tree.merge_patch(patches[i]);
    add();
  }
  problems.throw_if_any();
  return style;
}

}  // namespace tub::layout
