#include "aftercrop/units/quantity.h"

#include <doctest/doctest.h>

#include <type_traits>

using namespace aftercrop::units;

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
static_assert(!Addable<KgNPerHa, SquareMetres>);
static_assert(!std::is_convertible_v<double, KgNPerHa>);

TEST_CASE("units: a density times an area is an amount; 1 g/m2 is 10 kg/ha") {
  CHECK((KgNPerHa(10.0) * SquareMetres(1.0)).value() == doctest::Approx(0.001));
  CHECK((KgNPerHa(170.0) * SquareMetres(8.919)).value() == doctest::Approx(0.1516).epsilon(0.001));
}
