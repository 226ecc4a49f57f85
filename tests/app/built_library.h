// The data beside the built program, as it starts with them.
#pragma once

#include "app/library.h"

namespace tub::app {

inline const Library& library() {
  static const Library result(
      DataFolders{std::string(TUB_BINARY_DIR) + "/share/tubwright", std::nullopt});
  return result;
}

}  // namespace tub::app
