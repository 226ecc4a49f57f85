// The shape of a file's fields, as data: what reads, checks, explains and publishes a format.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "units/display.h"

namespace tub::job {

struct Field;
struct FieldShape;

/// A text that sheets print: no control characters, only what the faces have.
struct TextShape {
  std::size_t longest = 60;  ///< characters
};

/// The path of a file.
struct PathShape {};

/// "2026-05-04"
struct DateShape {};

/// A bare number: pH.
struct NumberShape {
  double low = 0;
  double high = 0;
};

struct WholeShape {
  int low = 0;
  int high = 0;
};

struct FlagShape {};

/// The version of the file's format.
struct VersionShape {
  int version = 1;
};

/// One of a list of names.
struct NameShape {
  std::string what;                  ///< "sheet", for messages
  std::vector<std::string> usable;   ///< in this version
  std::vector<std::string> known{};  ///< to the format, those included; empty: no others
  std::vector<std::pair<std::string, std::string>> meant{};  ///< what people write instead: name
  std::string help{};  ///< what to do about any other; empty: take the nearest
};

/// A text of a number and its unit.
struct QuantityShape {
  QuantityKind kind{};
  double low = 0;  ///< in the kind's own unit
  double high = 0;
  std::string example;  ///< "1340 L"
  std::string help{};   ///< what to do about a value outside; empty: write it as the example
};

/// "12.5 g/100 mL as Cl2": a strength with its basis.
struct StrengthShape {};

/// "45 mL per 1000 L"
struct DoseShape {};

/// "2 kg" or "1 L": a mass or a volume of a product.
struct AmountShape {};

struct ObjectShape {
  std::vector<Field> fields;
};

struct ListShape {
  std::shared_ptr<const FieldShape> item;
  std::size_t most = 0;
  std::string long_help;  ///< what to do about a list with too much in it
  std::size_t least = 0;
  std::string empty_help{};  ///< what to do about a list with too little in it
};

/// A plain value, or an object that says more.
struct EitherShape {
  std::shared_ptr<const FieldShape> plain;
  std::shared_ptr<const FieldShape> object;
};

struct FieldShape {
  std::variant<TextShape, PathShape, DateShape, NumberShape, WholeShape, FlagShape, VersionShape,
               NameShape, QuantityShape, StrengthShape, DoseShape, AmountShape, ObjectShape,
               ListShape, EitherShape>
      form;
};

enum class Presence { optional, required };

/// A field of an object, with the one line that explains it everywhere.
struct Field {
  std::string name;
  std::string about;
  FieldShape shape;
  Presence presence = Presence::optional;
  std::string missing_help{};  ///< what to do when a required field is not there
};

}  // namespace tub::job
