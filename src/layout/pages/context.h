// What laying out a block needs besides the block, and where it reports what does not fit.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "document/document.h"
#include "layout/type/font.h"
#include "layout/type/style.h"

namespace tub::layout {

struct Context {
  const Setting& setting;
  const FontSet& fonts;
  const Document& document;
  std::vector<Diagnostic>& misfits;  ///< what does not fit in this setting
  std::string where;                 ///< the block being laid out
  double free_height = 0;            ///< what the page has to give to each share of its rooms

  const Type& type_of(Rank rank) const;
  const Types& types() const { return setting.types; }
  const Lengths& lengths() const { return setting.lengths; }
  const Inks& inks() const { return setting.inks; }

  double width(std::string_view text, const Type& type) const;
  double width(std::u32string_view text, const Type& type) const;
  /// From the top of a line to its baseline, and from there to its bottom.
  double rise(const Type& type) const;
  double fall(const Type& type) const { return type.leading - rise(type); }

  /// Reports that something is too wide by so many points.
  void too_wide(std::string_view what, double by) const;
};

/// The same type, bold.
Type bold(Type type);
Type regular(Type type);

}  // namespace tub::layout
