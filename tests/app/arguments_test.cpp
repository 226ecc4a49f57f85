#include "app/arguments.h"

#include <catch2/catch.hpp>

#include "app/help.h"

using namespace tub;
using namespace tub::app;

namespace {

Arguments parse(const std::vector<std::string>& words) { return parse_arguments(words); }

std::string fault_of(const std::vector<std::string>& words) {
  try {
    parse(words);
    return "";
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::command_line);
    return error.what();
  }
}

}  // namespace

TEST_CASE("options may stand before and after the job, with a blank or an equals sign") {
  const Arguments arguments =
      parse({"print", "--out", "card.pdf", "job.json", "--sheet=a", "--sheet", "b"});
  CHECK(arguments.command->name == "print");
  CHECK(arguments.operand == "job.json");
  CHECK(arguments.value("--out") == "card.pdf");
  CHECK(arguments.values("--sheet") == std::vector<std::string>{"a", "b"});
}

TEST_CASE("after -- everything is a file, and - alone is one") {
  CHECK(parse({"check", "--", "--odd.json"}).operand == "--odd.json");
  CHECK(parse({"check", "-"}).operand == "-");
}

TEST_CASE("a command line at fault is told all that is wrong with it") {
  CHECK(fault_of({}) ==
        "error: no command was given\n  where: the command line\n"
        "  help:  see tubwright --help\n");
  CHECK(fault_of({"prnt"}) ==
        "error: there is no command \"prnt\"\n  where: the command line\n"
        "  help:  did you mean print?\n");
  CHECK(fault_of({"print", "--outt", "x"}) ==
        "error: print has no option --outt\n  where: the command line\n"
        "  help:  did you mean --out?\n"
        "error: print needs --out\n  where: the command line\n  help:  add --out PATH\n");
  CHECK(fault_of({"check"}) ==
        "error: check needs JOB\n  where: the command line\n"
        "  help:  write: tubwright check JOB\n");
  CHECK(fault_of({"check", "a", "b"}) ==
        "error: check does not know what to do with \"b\"\n  where: the command line\n"
        "  help:  leave it out\n");
  CHECK(fault_of({"plan", "a", "--json=1"}) ==
        "error: --json takes no value\n  where: the command line\n  help:  leave it out\n");
  CHECK(fault_of({"new", "--out"}) ==
        "error: --out needs a value\n  where: the command line\n"
        "  help:  write --out PATH\n");
  CHECK(fault_of({"list", "product"}) ==
        "error: \"product\" is not known as WHAT\n  where: the command line\n"
        "  help:  did you mean products?\n");
}

TEST_CASE("help of a command names every option that it reads") {
  for (const Command& command : all_commands()) {
    const std::string text = command_help(command);
    for (const CommandOption& option : command.options) {
      INFO(command.name << " " << option.name);
      CHECK(text.find("\n  " + std::string(option.name)) != std::string::npos);
      CHECK(bash_completion().find(option.name) != std::string::npos);
    }
    CHECK(program_help().find(std::string(command.summary)) != std::string::npos);
  }
}
