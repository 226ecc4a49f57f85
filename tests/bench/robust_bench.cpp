// A million random waters over the stated range: none may fail. Usage: robust_bench [count [seed]]
#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include "../chemistry/random_water.h"

namespace {

using namespace tub;

struct Tally {
  long waters = 0;
  long rejected = 0;
  long failed = 0;
  long steps = 0;
  int most_steps = 0;
};

void count_one(Dice& dice, const SpeciesTable& table, Tally& tally) {
  try {
    const auto water = random_water(dice, table);
    if (!water) {
      ++tally.rejected;
      return;
    }
    const Speciation found = speciate(*water, table);
    const WaterState state = read(*water, found, table);
    if (!std::isfinite(found.ph) || !std::isfinite(state.buffer_intensity_mmol_kg)) ++tally.failed;
    tally.steps += found.steps;
    tally.most_steps = std::max(tally.most_steps, found.steps);
  } catch (const Error& error) {
    if (++tally.failed <= 5) fmt::print("{}", error.what());
  }
  ++tally.waters;
}

Tally count_all(long wanted, std::uint64_t seed) {
  const std::string path = TUB_SOURCE_DIR "/src/chemistry/data/species.json";
  std::ifstream file(path);
  const SpeciesTable table =
      SpeciesTable::parse(std::string(std::istreambuf_iterator<char>(file), {}), path);
  Dice dice(seed);
  Tally tally;
  const auto begin = std::chrono::steady_clock::now();
  while (tally.waters < wanted) count_one(dice, table, tally);
  const std::chrono::duration<double> time = std::chrono::steady_clock::now() - begin;
  fmt::print(
      "seed {}: {} waters, {} rejected, {} failed; {:.1f} steps on average, {} at most; {:.1f} s\n",
      seed, tally.waters, tally.rejected, tally.failed,
      static_cast<double>(tally.steps) / static_cast<double>(tally.waters), tally.most_steps,
      time.count());
  return tally;
}

}  // namespace

int main(int count, char** words) {
  try {
    const long wanted = count > 1 ? std::atol(words[1]) : 1000000;
    const auto seed = static_cast<std::uint64_t>(count > 2 ? std::atol(words[2]) : 1);
    const Tally tally = count_all(wanted, seed);
    return tally.failed == 0 ? 0 : 1;
  } catch (const Error& error) {
    fmt::print("{}", error.what());
    return 3;
  }
}
