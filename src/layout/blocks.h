// One function a block kind: the block as a fragment of a given width.
#pragma once

#include "document/block.h"
#include "layout/context.h"
#include "layout/fragment.h"

namespace tub {

Fragment lay_masthead(const Masthead& masthead, double width, const Context& context);
/// Kind, title and figure in one line, for the pages after the first.
Fragment lay_short_masthead(const Masthead& masthead, double width, const Context& context);
Fragment lay_text(const Text& text, double width, const Context& context);
Fragment lay_channel(const Channel& channel, double width, const Context& context);
Fragment lay_notice(const Notice& notice, double width, const Context& context);
Fragment lay_signs(const Signs& signs, double width, const Context& context);

/// A whole ladder, where it stands inside another block.
Fragment lay_ladder(const Ladder& ladder, double width, const Context& context);

/// A block of any kind.
Fragment lay_block(const Block& block, double width, const Context& context);

}  // namespace tub
