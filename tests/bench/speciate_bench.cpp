// Microseconds a speciation: cold and warm, with the species of tap water and with all of them.
#include <benchmark/benchmark.h>

#include <fstream>
#include <iterator>

#include "chemistry/dose.h"

namespace {

using namespace tub;

const SpeciesTable& species() {
  static const std::string path = TUB_SOURCE_DIR "/src/chemistry/data/species.json";
  static const SpeciesTable table = [] {
    std::ifstream file(path);
    return SpeciesTable::parse(std::string(std::istreambuf_iterator<char>(file), {}), path);
  }();
  return table;
}

Readings tap() {
  Readings r;
  r.temperature_c = 27;
  r.ph = 7.5;
  r.total_alkalinity_mg_l = 80;
  r.calcium_hardness_mg_l = 150;
  r.magnesium_hardness_mg_l = 50;
  r.potassium_mg_l = 4;
  r.chloride_mg_l = 200;
  r.sulfate_mg_l = 60;
  return r;
}

Readings everything() {
  Readings r = tap();
  r.nitrate_mg_l = 10;
  r.borate_as_boron_mg_l = 30;
  r.cyanuric_acid_mg_l = 40;
  r.free_chlorine_mg_l = 3;
  r.total_bromine_mg_l = 2;
  r.peroxymonosulfate_mg_l = 5;
  return r;
}

Water water(const Readings& readings) {
  return water_from_readings(readings, Balance::sodium, species());
}

int present(const Speciation& speciation) {
  int count = 0;
  for (const double molality : speciation.molality) count += molality > 0 ? 1 : 0;
  return count;
}

void cold(benchmark::State& state, const Readings& readings) {
  Water w = water(readings);
  for (auto _ : state) {
    w.totals[Component::alkalinity] += 1e-12;
    benchmark::DoNotOptimize(speciate(w, species()));
  }
  state.counters["species"] = present(speciate(w, species()));
  state.counters["steps"] = speciate(w, species()).steps;
}

// Started from the species before 1 mg/kg of bicarbonate went in.
void warm(benchmark::State& state, const Readings& readings) {
  const Water before = water(readings);
  const Speciation near = speciate(before, species());
  const Water after = add(before, "NaHCO3", 1, species());
  for (auto _ : state) benchmark::DoNotOptimize(speciate(after, species(), near));
  state.counters["steps"] = speciate(after, species(), near).steps;
}

void from_readings(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(water(tap()));
}

void read_out(benchmark::State& state) {
  const Water w = water(tap());
  for (auto _ : state) benchmark::DoNotOptimize(read(w, species()));
}

void dose_to_ph(benchmark::State& state) {
  const Water w = water(tap());
  for (auto _ : state)
    benchmark::DoNotOptimize(
        dose_to(w, {&species().compound("NaHSO4")}, {{&WaterState::ph, 7.2}}, species()));
}

BENCHMARK_CAPTURE(cold, tap, tap())->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(warm, tap, tap())->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(cold, everything, everything())->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(warm, everything, everything())->Unit(benchmark::kMicrosecond);
BENCHMARK(from_readings)->Unit(benchmark::kMicrosecond);
BENCHMARK(read_out)->Unit(benchmark::kMicrosecond);
BENCHMARK(dose_to_ph)->Unit(benchmark::kMicrosecond);

}  // namespace

BENCHMARK_MAIN();
