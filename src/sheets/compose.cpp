// Facts, then the template, then what the file says about itself.
#include "sheets/compose.h"

#include "sheets/card/plan_facts.h"
#include "sheets/template/fact_kinds.h"

#include <vector>

namespace tub::sheets {
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
  return compose_pieces(sources, sheet, messages, {}).value.front();
}

Outcome<std::vector<Document>> compose_pieces(const SheetSources& sources,
                                              const SheetTemplate& sheet, const Messages& messages,
                                              const PieceRequest& request) {
  const bool is_split = sheet.split_at > 0 && request.turn >= sheet.split_at;
  FactSets sets = fact_kind(sheet.facts)
                      .make(sources, messages, {request.product, is_split, request.more_languages});
  Outcome<std::vector<Document>> outcome{{}, std::move(sets.warnings)};
  for (const Facts& facts : sets.value) {
    Document document = fill_template(sheet, facts, messages, request.turn);
    put_logo(document.blocks, sources.heading.logo);
    document.properties.author = text_of(facts.words("shop"));
    document.properties.fingerprint = text_of(facts.words("fingerprint"));
    if (facts.shape().find("product_id") != nullptr) {
      document.properties.product = text_of(facts.words("product_id"));
    }
    if (facts.shape().find("litres") != nullptr) {
      document.properties.container_litres = facts.number("litres").value_or(0);
    }
    if (const auto& date = sources.heading.date) {
      document.properties.date = {date->year, date->month, date->day};
    }
    outcome.value.push_back(std::move(document));
  }
  return outcome;
}

}  // namespace tub::sheets
