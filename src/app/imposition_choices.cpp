#include "app/imposition_choices.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/nearest.h"
#include "base/text.h"
#include "job/limits.h"

namespace tub::app {
namespace {

std::optional<int> read_count(const Arguments& arguments, std::string_view option, std::string help,
                              Problems& problems) {
  const auto text = arguments.value(option);
  if (!text) return std::nullopt;
  const int most = option == "--copies" ? limits::printed : 999;
  const auto number = to_number(*text);
  if (number && *number >= 1 && *number <= most && std::floor(*number) == *number) {
    return static_cast<int>(*number);
  }
  problems.add(command_line_fault(
      fmt::format("{} {} is no whole number from 1 to {}", option, *text, most), std::move(help)));
  return std::nullopt;
}

std::optional<double> read_bleed(const Arguments& arguments, Problems& problems) {
  const auto text = arguments.value("--bleed");
  if (!text) return std::nullopt;
  constexpr double most_mm = 5;
  const bool has_unit = text->size() > 2 && text->ends_with("mm");
  const auto number = has_unit ? to_number(text->substr(0, text->size() - 2)) : std::nullopt;
  if (number && *number >= 0 && *number <= most_mm) return number;
  problems.add(
      command_line_fault(fmt::format("--bleed {} is not from 0 to {} mm", *text, shortest(most_mm)),
                         "write it as 2mm"));
  return std::nullopt;
}

PrinterCorrection correction_of(const PrinterEntry& printer) {
  return {.right_mm = printer.right_mm,
          .down_mm = printer.down_mm,
          .width = printer.across_100_mm / 100,
          .height = printer.down_100_mm / 100};
}

PrinterCorrection read_correction(const Arguments& arguments, const Job& job, Problems& problems) {
  const std::string name = arguments.value("--printer").value_or("");
  const auto found =
      std::find_if(job.printers.begin(), job.printers.end(),
                   [&](const PrinterEntry& printer) { return printer.name == name; });
  if (found != job.printers.end()) return correction_of(*found);
  if (!arguments.has("--printer")) return {};
  std::vector<std::string> names;
  for (const PrinterEntry& printer : job.printers) {
    if (!printer.name.empty()) names.push_back(printer.name);
  }
  problems.add(command_line_fault(
      fmt::format("there is no printer \"{}\"", name),
      names.empty() ? "list it under \"printers\" in the shop's file, and name that with --shop"
                    : suggestion(name, names)));
  return {};
}

}  // namespace

ImpositionChoices read_imposition(const Arguments& arguments, const Job& job, Problems& problems) {
  ImpositionChoices choices;
  choices.first =
      read_count(arguments, "--start-at",
                 "give the first free label, counted row by row from the upper left", problems);
  choices.copies =
      read_count(arguments, "--copies", "give how many of each label are wanted", problems);
  choices.bleed_mm = read_bleed(arguments, problems);
  choices.has_crop_marks = arguments.has("--crop-marks");
  choices.correction = read_correction(arguments, job, problems);
  return choices;
}

}  // namespace tub::app
