#include "job/shape/value.h"

namespace tub::job {

const std::vector<Value>& Value::items() const {
  static const std::vector<Value> none;
  const auto* const held = std::get_if<std::vector<Value>>(&content_);
  return held == nullptr ? none : *held;
}

const Value* Value::find(std::string_view name) const {
  const Members* const members = std::get_if<Members>(&content_);
  if (members == nullptr) return nullptr;
  const auto found = members->find(name);
  return found == members->end() || !found->second.is_read() ? nullptr : &found->second;
}

std::optional<double> Value::number(std::string_view name) const {
  const Value* const member = find(name);
  return member == nullptr ? std::nullopt : member->number();
}

std::optional<bool> Value::flag(std::string_view name) const {
  const Value* const member = find(name);
  return member == nullptr ? std::nullopt : member->flag();
}

std::optional<std::string> Value::text(std::string_view name) const {
  const Value* const member = find(name);
  return member == nullptr ? std::nullopt : member->text();
}

std::optional<Measured> Value::measured(std::string_view name) const {
  const Value* const member = find(name);
  return member == nullptr ? std::nullopt : member->measured();
}

}  // namespace tub::job
