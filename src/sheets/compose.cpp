// Facts, then the template, then what the file says about itself.
#include "sheets/compose.h"

#include "sheets/plan_facts.h"

namespace tub {

Document compose(const SheetSources& sources, const SheetTemplate& sheet,
                 const Messages& messages) {
  const Facts facts = plan_facts(sources, messages);
  Document document = fill_template(sheet, facts, messages);
  document.properties.author = text_of(facts.words("shop"));
  document.properties.fingerprint = text_of(facts.words("fingerprint"));
  if (const auto& date = sources.heading.date) {
    document.properties.date = {date->year, date->month, date->day};
  }
  return document;
}

}  // namespace tub
