// One type per kind: what adds, and what must not compile.
#include "units/quantity.h"

#include <catch2/catch.hpp>

namespace {

using namespace tub;

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};

static_assert(Addable<Volume, Volume>);
static_assert(!Addable<Alkalinity, MassConcentration>);
static_assert(!Addable<Alkalinity, Hardness>);
static_assert(!Addable<Temperature, Temperature>);
static_assert(Addable<Temperature, TemperatureChange>);

}  // namespace

TEST_CASE("ten milligrams per litre in fifteen hundred litres are fifteen grams") {
  CHECK(in_grams(milligrams_per_litre(10) * litres(1500)) == Approx(15));
}

TEST_CASE("one hundred and four degrees Fahrenheit are forty Celsius") {
  CHECK(fahrenheit(104).celsius() == Approx(40));  // unit_conversions, temperature points
}

TEST_CASE("the same milligrams as CaCO3 are twice the equivalents for alkalinity") {
  CHECK(alkalinity_as_caco3(milligrams_per_litre(50.043)).si() == Approx(1));
  CHECK(hardness_as_caco3(milligrams_per_litre(100.086)).si() == Approx(1));
}
