// Points on the temperature scale: what they are in other units, and what must not compile.
#include "units/temperature.h"

#include <catch2/catch.hpp>

namespace {

using namespace tub;

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};

static_assert(!Addable<Temperature, Temperature>);

}  // namespace

TEST_CASE("one hundred and four degrees Fahrenheit are forty Celsius") {
  CHECK(fahrenheit(104).celsius() == Approx(40));  // unit_conversions, temperature points
}
