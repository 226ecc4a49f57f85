// A sheet as words: a list of blocks in one language, with what every page of it says at its foot.
#pragma once

#include <string>
#include <vector>

#include "document/block.h"

namespace tub::document {

/// Alternative texts of what is drawn wherever it stands.
struct Alternatives {
  std::string tick;      ///< "tick when done"
  std::string triangle;  ///< "warning"
  std::string fill;      ///< "to fill in"
  std::string arrow;     ///< "then"
};

/// The small line at the foot of each page.
struct Foot {
  std::string left;   ///< fingerprint, target set, source of the gate
  std::string right;  ///< version, sheet; the page's number is put behind it
  /// "{page} of {pages}", joined to `right` by " · "; empty: no page number.
  std::string page_of;
};

struct Date {
  int year = 2000;
  int month = 1;
  int day = 1;
};

/// What a file says about itself.
struct Properties {
  std::string author;
  std::string subject;
  std::string fingerprint;      ///< of the job, "7K4Q-M2"
  Date date;                    ///< midnight UTC in the file's dates
  std::string product{};        ///< identifier, on the label of one product; else empty
  double container_litres = 0;  ///< what a labelled container holds; 0: no container label
};

struct Document {
  std::string sheet;         ///< its identifier, for messages: "startup_card"
  bool is_one_page = false;  ///< a label: what does not fit on it is an error, not a second page
  std::string title;         ///< the file's title
  std::string language;      ///< a BCP 47 tag
  std::vector<Block> blocks;
  Foot foot;
  Alternatives alternatives;
  Properties properties;
};

}  // namespace tub::document
