// Facts, then the template, then what the file says about itself.
#include "sheets/compose.h"

#include "sheets/plan_facts.h"

#include <vector>

namespace tub {
namespace {

// A template says where the logo stands and what it is called; the picture is the heading's.
void put_logo(std::vector<Block>& blocks, const std::optional<Logo>& logo) {
  for (Block& block : blocks) {
    if (auto* const masthead = std::get_if<Masthead>(&block.content)) {
      if (!masthead->logo) continue;
      if (logo) {
        masthead->logo = Picture{logo->png, logo->width_px, logo->height_px, masthead->logo->alt};
      } else {
        masthead->logo.reset();
      }
    } else if (auto* const columns = std::get_if<Columns>(&block.content)) {
      for (Columns::Column& column : columns->columns) put_logo(column.blocks, logo);
    }
  }
}

}  // namespace

Document compose(const SheetSources& sources, const SheetTemplate& sheet,
                 const Messages& messages) {
  const Facts facts = plan_facts(sources, messages);
  Document document = fill_template(sheet, facts, messages);
  put_logo(document.blocks, sources.heading.logo);
  document.properties.author = text_of(facts.words("shop"));
  document.properties.fingerprint = text_of(facts.words("fingerprint"));
  if (const auto& date = sources.heading.date) {
    document.properties.date = {date->year, date->month, date->day};
  }
  return document;
}

}  // namespace tub
