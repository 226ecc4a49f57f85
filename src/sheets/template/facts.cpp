// Facts kept in the order of their shape.
#include "sheets/template/facts.h"

#include <algorithm>
#include <cassert>
#include <utility>

namespace tub::sheets {

const FactRow* Shape::find(std::string_view name) const {
  const auto row = std::find_if(rows.begin(), rows.end(),
                                [&](const FactRow& candidate) { return candidate.name == name; });
  return row == rows.end() ? nullptr : &*row;
}

Facts::Facts(const Shape& shape) : shape_(&shape) {
  values_.reserve(shape.rows.size());
  for (const FactRow& row : shape.rows) {
    switch (row.kind) {
      case FactRow::Kind::words:
        values_.emplace_back(Words{});
        break;
      case FactRow::Kind::number:
        values_.emplace_back(std::optional<double>{});
        break;
      case FactRow::Kind::list:
        values_.emplace_back(std::vector<Facts>{});
        break;
    }
  }
}

Facts Facts::sample(const Shape& shape) {
  Facts facts(shape);
  for (const FactRow& row : shape.rows) {
    switch (row.kind) {
      case FactRow::Kind::words:
        facts.set(row.name, std::string(row.name));
        break;
      case FactRow::Kind::number:
        facts.set(row.name, 1.0);
        break;
      case FactRow::Kind::list:
        facts.add(row.name, sample(*row.of));
        break;
    }
  }
  return facts;
}

Facts::Value& Facts::at(std::string_view name, FactRow::Kind kind) {
  const FactRow* const row = shape_->find(name);
  assert(row != nullptr && row->kind == kind && "a fact that its shape does not have");
  (void)kind;
  return values_.at(static_cast<std::size_t>(row - shape_->rows.data()));
}

const Facts::Value& Facts::at(std::string_view name) const {
  const FactRow* const row = shape_->find(name);
  assert(row != nullptr && "a fact that its shape does not have");
  return values_.at(static_cast<std::size_t>(row - shape_->rows.data()));
}

void Facts::set(std::string_view name, Words words) {
  at(name, FactRow::Kind::words) = std::move(words);
}

void Facts::set(std::string_view name, std::string text) {
  at(name, FactRow::Kind::words) = plain(std::move(text));
}

void Facts::set(std::string_view name, double number) {
  at(name, FactRow::Kind::number) = std::optional<double>(number);
}

void Facts::set(std::string_view name, std::vector<Facts> list) {
  at(name, FactRow::Kind::list) = std::move(list);
}

void Facts::add(std::string_view list, Facts element) {
  std::get<std::vector<Facts>>(at(list, FactRow::Kind::list)).push_back(std::move(element));
}

bool Facts::is_present(std::string_view name) const {
  const Value& value = at(name);
  if (const auto* const words = std::get_if<Words>(&value)) return !words->empty();
  if (const auto* const number = std::get_if<std::optional<double>>(&value)) {
    return number->has_value();
  }
  return !std::get<std::vector<Facts>>(value).empty();
}

const Words& Facts::words(std::string_view name) const { return std::get<Words>(at(name)); }

std::optional<double> Facts::number(std::string_view name) const {
  return std::get<std::optional<double>>(at(name));
}

const std::vector<Facts>& Facts::list(std::string_view name) const {
  return std::get<std::vector<Facts>>(at(name));
}

}  // namespace tub::sheets
