// Walks blocks and pages for their words.
#include "words_of.h"

#include "base/text.h"

namespace tub::layout {
namespace {

struct BlockWords {
  std::map<std::string, int>& counts;

  void add(const Words& words) const { add(text_of(words)); }
  void add(const std::string& text) const {
    count_words(replaced(replaced(text, "\u00AD", ""), "\u200B", ""), counts);
  }
  void operator()(const Masthead& m) const {
    add(m.kind);
    add(m.title);
    add(m.figure);
    for (const Words& fact : m.facts) add(fact);
  }
  void operator()(const Text& t) const {
    for (const Paragraph& p : t.paragraphs) add(p.words);
  }
  void operator()(const Channel& c) const {
    for (const Words& head :
         {c.title, c.now_head, c.low_head, c.band_head, c.high_head, c.after_head})
      add(head);
    for (const auto& row : c.rows) std::visit(*this, row);
  }
  void operator()(const ChannelReading& r) const {
    add(r.name);
    add(r.unit);
    for (const std::string& text : {r.now, r.low, r.high, r.after}) add(text);
  }
  void operator()(const ChannelHeld& r) const {
    add(r.name);
    add(r.unit);
    add(r.now);
    add(r.held);
  }
  void operator()(const Notice& n) const {
    add(n.word);
    add(n.text);
  }
  void operator()(const Signs& s) const { add(s.text); }
  void operator()(const Ladder& l) const {
    for (const Words& head : {l.pour_head, l.wait_head, l.test_head, l.reading_head}) add(head);
    for (const Rung& rung : l.rungs) (*this)(rung);
  }
  void operator()(const Rung& r) const {
    add(r.key);
    add(r.title);
    add(r.hazard);
    for (const Words& point : r.aside) add(point);
    for (const Words& note : r.notes) add(note);
    for (const Pour& p : r.pours) {
      for (const Words& words : {p.condition, p.wait, p.test, p.reading}) add(words);
      add(p.amount.text);
      add(p.amount.spoons);
    }
    for (const RungOutcome& outcome : r.outcomes) {
      add(outcome.when);
      add(outcome.then);
    }
    for (const Block& block : r.blocks) std::visit(*this, block.content);
  }
  template <class Other>
  void operator()(const Other&) const {
    throw std::logic_error("words of this kind of block are not counted");
  }
};

}  // namespace

void count_words(const std::string& text, std::map<std::string, int>& counts) {
  for (const std::string& word : split(text, ' ')) {
    if (!word.empty()) ++counts[word];
  }
}

std::map<std::string, int> words_of(const Document& document) {
  std::map<std::string, int> counts;
  for (const Block& block : document.blocks) std::visit(BlockWords{counts}, block.content);
  return counts;
}

std::map<std::string, int> words_on(const Page& page) {
  std::vector<std::string> texts(page.elements.size());
  for (const Item& item : page.items) {
    const TextRun* const run = std::get_if<TextRun>(&item);
    if (!run || run->element == artifact) continue;
    // Parts of a figure stand apart.
    const auto at = static_cast<std::size_t>(run->element);
    if (page.elements[at].role == Role::figure) texts[at] += ' ';
    texts[at] += run->text;
  }
  std::map<std::string, int> counts;
  for (const std::string& text : texts) count_words(replaced(text, "\u00AD", ""), counts);
  return counts;
}

}  // namespace tub::layout
