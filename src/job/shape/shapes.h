// Short ways to write the shape of a field.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "job/shape/shape.h"

namespace tub::job::shapes {

inline FieldShape text(std::size_t longest) { return {TextShape{longest}}; }

inline FieldShape quantity(QuantityShape shape) { return {std::move(shape)}; }

inline FieldShape object(std::vector<Field> fields) { return {ObjectShape{std::move(fields)}}; }

inline FieldShape names(std::string what, std::vector<std::string> usable,
                        std::vector<std::string> known = {}) {
  return {NameShape{std::move(what), std::move(usable), std::move(known)}};
}

/// A list of at most so many, and what to do about a longer one.
struct AtMost {
  std::size_t items = 0;
  std::string help;
};

inline FieldShape list_of(FieldShape item, AtMost most) {
  return {ListShape{std::make_shared<const FieldShape>(std::move(item)), most.items,
                    std::move(most.help)}};
}

/// A list that is not empty.
inline FieldShape some_of(FieldShape item, AtMost most, std::string empty_help) {
  return {ListShape{std::make_shared<const FieldShape>(std::move(item)), most.items,
                    std::move(most.help), 1, std::move(empty_help)}};
}

inline FieldShape either(FieldShape plain, FieldShape object) {
  return {EitherShape{std::make_shared<const FieldShape>(std::move(plain)),
                      std::make_shared<const FieldShape>(std::move(object))}};
}

inline Field required(std::string name, std::string about, FieldShape shape) {
  return {std::move(name), std::move(about), std::move(shape), Presence::required};
}

}  // namespace tub::job::shapes
