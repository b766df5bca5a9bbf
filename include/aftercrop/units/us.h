#pragma once

// What US units are in metric ones: exact by definition of inch, pound, acre and US gallon.
namespace aftercrop::units {

inline constexpr double kCmPerInch = 2.54;
inline constexpr double kMPerFoot = 0.3048;
inline constexpr double kM2PerSquareFoot = kMPerFoot * kMPerFoot;
inline constexpr double kM2PerAcre = 43560.0 * kM2PerSquareFoot;
inline constexpr double kKgPerPound = 0.45359237;
inline constexpr double kKgPerOunce = kKgPerPound / 16.0;
inline constexpr double kKgPerShortTon = 2000.0 * kKgPerPound;
inline constexpr double kLitresPerGallon = 3.785411784;

[[nodiscard]] constexpr double fahrenheit(double celsius) { return celsius * 9.0 / 5.0 + 32.0; }

}  // namespace aftercrop::units
