// The command water: the chemistry alone, a line at a time.
#include <string>

#include "app/commands.h"
#include "app/files.h"
#include "app/library.h"
#include "app/line_reader.h"
#include "water/format.h"

namespace tub::app {

int run_water(const Arguments& arguments) {
  constexpr std::size_t most_kept = 1U << 16U;
  const WaterTables tables = load_water_tables(find_data_folders(arguments.value("--data")));
  LineReader lines(arguments.operand.value_or("-"));
  std::string answers;
  std::size_t number = 0;
  bool is_all_well = true;
  while (const auto line = lines.next()) {
    const WaterAnswer answer = answer_water_line(*line, ++number, tables);
    is_all_well = is_all_well && !answer.is_error;
    answers += answer.text + "\n";
    // Who asks line by line is answered line by line.
    if (answers.size() < most_kept && lines.has_line_ready()) continue;
    write_standard_output(answers);
    answers.clear();
  }
  write_standard_output(answers);
  return is_all_well ? 0 : static_cast<int>(Fault::job);
}

}  // namespace tub::app
