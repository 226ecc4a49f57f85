// Words cut at every place where a line may end.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "document/words.h"
#include "layout/pages/context.h"
#include "layout/pages/fragment.h"

namespace tub::layout {

/// Some text of one type, or one drawn mark, with no place for a line's end inside.
struct Piece {
  enum class Break { none, free, soft_hyphen };
  std::string text;  ///< with the spaces at its end; empty for a drawn mark
  Type type;
  double width = 0;    ///< spaces at its end included
  double visible = 0;  ///< without them
  double hyphen = 0;   ///< the width that a break at a soft hyphen adds
  double lead = 0;     ///< empty space before it
  Break after = Break::none;
  bool chip = false;        ///< a target: grey between banks
  std::vector<Mark> drawn;  ///< marks around the piece's left end on the baseline
};

/// The words' pieces in order; each but the last knows whether a line may end behind it.
///
/// Throws: Error if a text holds a control character, or a character that the faces lack
std::vector<Piece> pieces_of(const Words& words, const Type& type, const Context& context);

}  // namespace tub::layout
