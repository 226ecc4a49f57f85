// What a page's items have in common.
#include "layout/pages/page.h"

namespace tub::layout {

int element_of(const Item& item) {
  return std::visit([](const auto& it) { return it.element; }, item);
}

}  // namespace tub::layout
