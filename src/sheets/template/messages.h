// The words of one language: sentences by key, number signs, month names.
#pragma once

#include <array>
#include <initializer_list>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "document/words.h"
#include "planning/heading.h"
#include "planning/tables/country.h"
#include "sheets/template/numbers.h"
#include "sheets/template/phrase.h"

namespace tub::sheets {

/// A message that a language must have, and the {placeholders} that it may use.
struct RequiredMessage {
  std::string key;  ///< "rung.fill"
  std::vector<std::string> parameters;
  std::string said_by = "";  ///< the template that says it; empty: the program does
  bool is_needed = true;     ///< false: a language may have it, but no sheet says it
};

/// What stands for a placeholder of a message.
struct MessageParameter {
  MessageParameter(std::string_view parameter_name, std::string text)
      : name(parameter_name), words(plain(std::move(text))) {}
  MessageParameter(std::string_view parameter_name, Words parameter_words)
      : name(parameter_name), words(std::move(parameter_words)) {}

  std::string_view name;
  Words words;
};

using MessageParameters = std::initializer_list<MessageParameter>;

/// A language file, read and complete.
class Messages {
 public:
  /// Reads `templates/languages/<tag>.json`.
  ///
  /// required: in byte order of their keys
  /// Throws: Error with every missing or unknown key, broken mark and unknown placeholder, each at
  ///         its place
  static Messages parse(std::string_view text, const std::string& file,
                        std::span<const RequiredMessage> required);

  /// The same words as that country writes them: its decimal sign, its variant's messages. Without
  /// a country, these.
  Messages in(const std::optional<Country>& country) const;

  const std::string& language() const { return language_; }  ///< a BCP 47 tag
  const std::string& name() const { return name_; }          ///< in itself: "Deutsch"
  const NumberStyle& numbers() const { return numbers_; }

  bool has(std::string_view key) const;
  // REQUIRES: a required key, its parameters given.
  const Phrase& phrase(std::string_view key) const;
  Words words(std::string_view key, MessageParameters parameters = {}) const;
  Words words(std::string_view key, std::span<const MessageParameter> parameters) const;
  std::string text(std::string_view key, MessageParameters parameters = {}) const;
  /// "4 May 2026", in the language's order.
  std::string date(const CalendarDate& date) const;

 private:
  std::string language_;
  std::string name_;
  NumberStyle numbers_;
  std::array<std::string, 12> months_;
  using PhraseMap = std::map<std::string, Phrase, std::less<>>;
  PhraseMap phrases_;
  std::map<std::string, PhraseMap> variants_;  ///< what differs, by the variant's name
};

}  // namespace tub::sheets
