#pragma once

#include <vector>

#include "aftercrop/catalogue/coefficients.h"
#include "aftercrop/catalogue/crop.h"
#include "aftercrop/catalogue/ending.h"
#include "aftercrop/catalogue/pathogen.h"

namespace aftercrop::disease {

/// Every event but a sighting maps a relative load r to a r / (1 + b r); such maps compose.
struct LoadMap {
  double a = 1.0;
  double b = 0.0;
  [[nodiscard]] double operator()(double r) const { return a * r / (1.0 + b * r); }
};

/// First `first`, then `second`.
[[nodiscard]] constexpr LoadMap then(const LoadMap& first, const LoadMap& second) {
  return {first.a * second.a, first.b + first.a * second.b};
}

/// `weeks` without a host: the load halves every `half_life_years`.
[[nodiscard]] LoadMap decay(double weeks, double half_life_years);

/// `weeks` of a host whose full season of `season_weeks` doubles the load `doublings` times;
/// saturates at `ceiling`. Composes: two halves are the whole.
[[nodiscard]] LoadMap host_weeks(double weeks, double season_weeks, double doublings,
                                 double ceiling);

/// A kill of the share `efficacy` at `quality` (0..1) of execution.
[[nodiscard]] constexpr LoadMap kill(double efficacy, double quality) {
  return {1.0 - efficacy * quality, 0.0};
}

/// Years without a host until the load falls below `limit`; 0 if it is below already.
[[nodiscard]] double years_to(double load, double limit, double half_life_years);

/// Doublings of a full season of a host, less what pulled plants carry off.
[[nodiscard]] double season_doublings(const catalogue::Pathogen& pathogen,
                                      const catalogue::Host& host, catalogue::Ending ending);

/// Factor of soil pH on infection (phi).
[[nodiscard]] double ph_factor(const catalogue::Pathogen& pathogen, double ph);

/// What is known of a biofumigant's end.
struct Fumigation {
  double flower = 1.0;  ///< progress to first flower
  double weeks_grown = 10.0;
  double fresh_kg_m2 = 4.0;
  double soil_c = 15.0;    ///< at 10 cm
  bool chopped_in = true;  ///< chopped and incorporated at once
};

/// A factor of the quality of a biofumigation.
enum class Unready { None, Species, Stage, Biomass, NotIncorporated, ColdSoil, Execution };

struct Quality {
  double q = 0.0;                 ///< product of all factors, 0..1
  Unready first = Unready::None;  ///< first factor at or below 0.5
  double factor = 1.0;            ///< its value
};

/// Quality of a planned biofumigation. Sources: Cornell, Biofumigation for managing Phytophthora
/// blight; Morris, Fletcher and Veresoglou 2020; factors between are our choice.
[[nodiscard]] Quality fumigation_quality(const catalogue::Crop& crop, const Fumigation& how,
                                         const catalogue::DiseaseCoefficients& k);

}  // namespace aftercrop::disease
