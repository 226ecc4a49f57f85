#include "app/command_table.h"

#include <algorithm>
#include <array>

namespace tub::app {
namespace {

constexpr std::array<std::string_view, 4> formats = {"pdf", "svg", "png", "bitmap"};
constexpr std::array<std::string_view, 7> lists = {"products", "targets",   "sanitizers", "sheets",
                                                   "stocks",   "languages", "units"};
constexpr std::array<std::string_view, 3> schemas = {"job", "plan", "water"};
constexpr std::array<std::string_view, 1> shells = {"bash"};

constexpr CommandOption shop = {"--shop", "FILE", "what the shop sets once: name, phone, logo, …",
                                Completion::file};
constexpr CommandOption data = {"--data", "DIR", "look for templates in DIR before our own",
                                Completion::folder};
constexpr CommandOption force = {"--force", "", "replace a file that --out would else not replace"};
constexpr CommandOption help = {"--help", "", "show this help"};
constexpr CommandOperand job = {"JOB", "the job file; - is standard input", Completion::file};

Command new_command() {
  return {
      "new",
      "write a commented starter job to fill in",
      "The job goes to standard output, or to PATH. It needs only your readings. A file that is\n"
      "there already is replaced with --force alone.",
      {},
      {{"--out", "PATH", "write to PATH instead of standard output", Completion::file},
       force,
       shop,
       data,
       help}};
}

Command check_command() {
  return {"check",
          "list every problem and warning of a job",
          "Prints nothing else. Exit status 0: the job can be planned.",
          job,
          {shop, data, help}};
}

Command plan_command() {
  return {"plan",
          "work out the plan, for the terminal or as JSON",
          "A target that cannot be reached is part of the plan, and what would mend it.",
          job,
          {{"--json", "", "write the plan as JSON; `tubwright schema plan` says its shape"},
           {"--why", "POINTER", "where one number of the plan comes from: /steps/2/amount_g"},
           shop,
           data,
           help}};
}

Command print_command() {
  return {
      "print",
      "print the sheets of a job",
      "The format follows --format, or else the ending of PATH. PDF holds all pages; of the\n"
      "others, several pages become card-1.png, card-2.png, … and - takes one page only.\n"
      "A bitmap is PBM if PATH ends in .pbm, else a PNG of one bit. An older print is replaced;\n"
      "the job, the shop's file, a logo or a template only with --force.\n"
      "\n"
      "Labels fill a sheet of labels from its first free one. The sheet label_sheet takes labels\n"
      "of several kinds: those named, else those that the job asks for, else all.\n"
      "\n"
      "Sizes: cards and the hazard sheet A4 or Letter (210 × 279 mm); cabinet_label 101 × 127 or\n"
      "99 × 138 mm; dose_tag 60 × 40, 63 × 38, 70 × 37 or 52 × 74 mm; container_label 74 × 105 "
      "mm,\n"
      "and larger. `tubwright list sheets` says which smaller ones take short words.",
      job,
      {{"--out", "PATH", "where to; - is standard output", Completion::file, false, true},
       force,
       {"--sheet", "NAME", "this sheet, not those of the job; may be repeated", Completion::sheet,
        true},
       {"--stock", "NAME", "paper or label: a name, or 80x120mm", Completion::stock},
       {"--language", "TAG", "the language of the sheets", Completion::language},
       {"--format", "NAME", "pdf, svg, png or bitmap", Completion::format},
       {"--dpi", "N", "dots per inch: 110 for PNG, 203 for bitmaps if not given"},
       {"--label", "NAME", "a label for label_sheet; may be repeated", Completion::sheet, true},
       {"--start-at", "N", "the first free label of the sheet, row by row from 1"},
       {"--copies", "N", "of each label"},
       {"--bleed", "MM", "how far past its edge a label is printed: 2mm"},
       {"--crop-marks", "", "lines that say where to cut"},
       {"--printer", "NAME", "whose corrections hold, of those in the shop's file"},
       {"--alignment-page", "", "rulers to measure the printer by, in place of the sheets"},
       shop,
       data,
       help}};
}

Command water_command() {
  return {"water",
          "chemistry alone: a water a line in, its states a line out",
          "JSON Lines, from FILE or standard input; `tubwright schema water` says their shape.\n"
          "A bad line gives an object with its error, and the rest goes on.",
          {"FILE", "lines of JSON; without it, or as -, standard input", Completion::file, false},
          {data, help}};
}

Command list_command() {
  return {"list",
          "list what jobs can name",
          "Lists products, targets, sanitizers, sheets, stocks, languages or units.",
          {"WHAT", "what to list", Completion::data_list},
          {{"--json", "", "for programs"}, data, help}};
}

Command schema_command() {
  return {"schema",
          "print the JSON Schema of a format",
          "Of job, plan or water, by JSON Schema 2020-12.",
          {"WHAT", "which format", Completion::schema},
          {data, help}};
}

Command completion_command() {
  return {"completion",
          "print a completion script for a shell",
          "source <(tubwright completion bash)",
          {"SHELL", "which shell", Completion::shell},
          {help}};
}

}  // namespace

std::span<const Command> all_commands() {
  static const std::vector<Command> commands = {
      new_command(),   check_command(), plan_command(),   print_command(),
      water_command(), list_command(),  schema_command(), completion_command()};
  return commands;
}

const Command* command_named(std::string_view name) {
  const auto commands = all_commands();
  const auto found = std::find_if(commands.begin(), commands.end(),
                                  [&](const Command& command) { return command.name == name; });
  return found == commands.end() ? nullptr : &*found;
}

std::span<const std::string_view> fixed_words(Completion completion) {
  switch (completion) {
    case Completion::format:
      return formats;
    case Completion::data_list:
      return lists;
    case Completion::schema:
      return schemas;
    case Completion::shell:
      return shells;
    default:
      return {};
  }
}

}  // namespace tub::app
