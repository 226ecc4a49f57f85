// The corrections of a shop's printers.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "job/shape/job_parts.h"

namespace tub::job {
namespace {

// More is no misplaced page but another paper, tray or scale.
constexpr double most_shift_mm = 5;
constexpr double most_stretch_mm = 2;  // of 100

// A length in millimetres; a problem if it is further from where it belongs than printers are.
double read_offset(const Value& printer, std::string_view name, double usual_mm, double most_mm) {
  const Value* const field = printer.find(name);
  if (field == nullptr || !field->number()) return usual_mm;
  const double found = std::round(*field->number() * 1e6) / 1e3;
  if (std::abs(found - usual_mm) > most_mm) {
    field->problem(
        fmt::format("the printer is {} mm off, and at most {} mm are corrected",
                    shortest(std::round((found - usual_mm) * 1e3) / 1e3), shortest(most_mm)),
        "print the alignment page at 100 %, unscaled, and measure again");
  }
  return found;
}

PrinterEntry read_printer(const Value& printer) {
  PrinterEntry entry;
  entry.name = printer.text("name").value_or("");
  entry.right_mm = read_offset(printer, "right", 0, most_shift_mm);
  entry.down_mm = read_offset(printer, "down", 0, most_shift_mm);
  entry.across_100_mm = read_offset(printer, "across_100_mm", 100, most_stretch_mm);
  entry.down_100_mm = read_offset(printer, "down_100_mm", 100, most_stretch_mm);
  return entry;
}

}  // namespace

std::vector<PrinterEntry> read_printers(const Value& shop) {
  std::vector<PrinterEntry> printers;
  if (const Value* const printer = shop.find("printer")) printers.push_back(read_printer(*printer));
  const Value* const others = shop.find("printers");
  if (others == nullptr) return printers;
  for (const Value& other : others->items()) {
    const auto name = other.text("name");
    if (!name) continue;
    const bool is_known =
        std::any_of(printers.begin(), printers.end(),
                    [&](const PrinterEntry& entry) { return entry.name == *name; });
    if (is_known) {
      other.problem(fmt::format("the printer \"{}\" stands twice", *name), "keep one of them");
    }
    printers.push_back(read_printer(other));
  }
  return printers;
}

}  // namespace tub::job
