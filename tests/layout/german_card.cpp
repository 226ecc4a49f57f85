// The demo card in German: longer words, longer lines.
#include "demo_card.h"

namespace tub::layout {
namespace {

Pour first(const std::string& amount, const std::string& spoons, const std::string& test,
           const std::string& expect) {
  return {Pour::Turn::first,    {},          {amount, spoons},
          plain("20\u202Fmin"), plain(test), plain(expect)};
}

void translate_rungs(Ladder& ladder) {
  ladder.pour_head = plain("zugeben");
  ladder.wait_head = plain("warten");
  ladder.test_head = plain("dann messen");
  ladder.reading_head = plain("Messwert");
  Rung& fill = ladder.rungs[0];
  fill.title = plain("Füllen, auf 27\u202F°C heizen");
  fill.aside = {words({Plain{"durch den Schlauchfilter. "},
                       Bold{"Strom erst einschalten, wenn das Becken voll ist."}})};
  fill.notes = {
      plain("Heute noch einmal messen; weicht ein Wert von der Tabelle oben ab, vor der ersten "
            "Zugabe anrufen.")};
  Rung& bicarbonate = ladder.rungs[2];
  bicarbonate.title = plain("Natriumhydrogencarbonat");
  bicarbonate.aside = {plain("erhöht die Säurekapazität; Schritt 4 nimmt 10 wieder weg."),
                       plain("Über das bewegte Wasser streuen.")};
  bicarbonate.pours = {
      first("90\u202Fg", "6 gestrichene Esslöffel", "Säurekapazität", "erwartet 97–107"),
      second("Zeigt der Test unter 110:", "45\u202Fg", "3 gestrichene Esslöffel", "Säurekapazität",
             "110–150")};
  bicarbonate.outcomes = {{plain("110–150:"), plain("zweite Zugabe auslassen, weiter.")},
                          {plain("Über 150:"), plain("aufhören, uns anrufen.")},
                          {plain("Nach beiden unter 110:"), plain("aufhören, uns anrufen.")}};
  Rung& acid = ladder.rungs[3];
  acid.title = plain("Natriumhydrogensulfat (pH-Senker)");
  acid.aside = {plain("senkt den pH-Wert."), plain("Langsam streuen, den Wind im Rücken.")};
  acid.hazard = plain(
      "Säure: giftiges Gas, wenn sie mit Chlor zusammenkommt. Dazu eine Staubmaske tragen und das "
      "Gefäß nicht über das Becken halten.");
  acid.pours = {first("121\u202Fg", "17½ gestrichene Teelöffel aus dem Messlöffelsatz", "pH-Wert",
                      "erwartet 7,6–7,8"),
                second("Zeigt der Teststreifen nach der Wartezeit über 7,6:", "114\u202Fg",
                       "16 gestrichene Teelöffel", "pH-Wert", "7,4–7,6")};
}

}  // namespace

Document german_card() {
  Document document = demo_card();
  document.language = "de";
  auto& masthead = std::get<Masthead>(document.blocks[0].content);
  masthead.kind = plain("Inbetriebnahmekarte");
  masthead.title = plain("Außenwhirlpool am Bootshaus der Familie Oberhofmeister");
  masthead.facts = {words({Plain{"Für "}, Bold{"Familie Oberhofmeister-Schnittkemper"}}),
                    words({Plain{"Von "}, Bold{"Schwimmbadtechnik Unterbacher Söhne"},
                           Plain{", 0800\u00A0555\u00A00142"}}),
                    plain("4. Mai 2026"), plain("354\u00A0US-Gallonen, ±5\u202F%, Acrylwanne")};
  auto& channel = std::get<Channel>(document.blocks[1].content);
  channel.title = plain("Ihr Wasser");
  channel.now_head = plain("jetzt");
  channel.low_head = plain("zu niedrig");
  channel.band_head = plain("zum Baden");
  channel.high_head = plain("zu hoch");
  channel.after_head = plain("nach Schritt 6");
  std::get<ChannelReading>(channel.rows[1]).name = plain("Säurekapazität");
  std::get<ChannelReading>(channel.rows[2]).name = plain("Calciumhärte");
  translate_rungs(std::get<Ladder>(document.blocks[4].content));
  return document;
}

}  // namespace tub::layout
