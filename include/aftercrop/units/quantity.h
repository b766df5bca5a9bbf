#pragma once

#include <compare>

namespace aftercrop::units {

/// A number with its unit in the type. Built only on purpose (no implicit conversion from a
/// number), added only to itself; the ratio of two is a plain number.
template <class Unit>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double value) : value_(value) {}

  [[nodiscard]] constexpr double value() const { return value_; }

  friend constexpr Quantity operator+(Quantity a, Quantity b) {
    return Quantity(a.value_ + b.value_);
  }
  friend constexpr Quantity operator-(Quantity a, Quantity b) {
    return Quantity(a.value_ - b.value_);
  }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.value_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
  constexpr Quantity& operator+=(Quantity other) {
    value_ += other.value_;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity other) {
    value_ -= other.value_;
    return *this;
  }
  friend constexpr auto operator<=>(Quantity, Quantity) = default;

 private:
  double value_ = 0.0;
};

using SquareMetres = Quantity<struct SquareMetre>;
using Metres = Quantity<struct Metre>;
using Kilograms = Quantity<struct Kilogram>;
/// Kilograms of nitrogen per hectare: the unit of every pool of the nitrogen ledger.
using KgNPerHa = Quantity<struct KilogramNitrogenPerHectare>;
/// Kilograms of nitrogen.
using KgN = Quantity<struct KilogramNitrogen>;

/// The only product of two quantities: a density times an area (1 ha = 10,000 m2).
constexpr KgN operator*(KgNPerHa density, SquareMetres area) {
  return KgN(density.value() * area.value() / 10000.0);
}

}  // namespace aftercrop::units
