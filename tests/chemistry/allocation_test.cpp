// A speciation asks for no memory: counted by replacing the program's operator new.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <new>

#include "reference_table.h"

namespace {
std::size_t allocations = 0;
}

void* operator new(std::size_t size) {
  ++allocations;
  if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
  throw std::bad_alloc();
}
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  ++allocations;
  return std::malloc(size == 0 ? 1 : size);
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }
void operator delete(void* memory, const std::nothrow_t&) noexcept { std::free(memory); }

TEST_CASE("a speciation allocates nothing, cold or warm") {
  using namespace tub::chemistry;
  const SpeciesTable& table = reference::species();
  const Water water = reference::water(reference::rows("speciation").front());
  const Water dosed = add(water, "NaHCO3", 20, table);
  const std::size_t before = allocations;
  const Speciation cold = speciate(water, table);
  const Speciation warm = speciate(dosed, table, cold);
  const std::size_t after = allocations;
  CHECK(after == before);
  CHECK(warm.ph != cold.ph);
  CHECK(before > 0);
}
