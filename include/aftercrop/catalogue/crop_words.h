#pragma once

namespace aftercrop::catalogue {

enum class Start { Sow, Transplant, Either, Set, Clove, Tuber, Slip, Crown, RootCutting };
enum class SeedClass { Small, Medium, Large, Vegetative };
enum class HarvestMode { Single, Repeated, CutAgain };
enum class Hardiness { VeryHardy, Hardy, HalfHardy, Tender, VeryTender };
/// Sowing class of the climate reference: when a crop may start, seen from the last frost.
enum class SowingClass { Hardy, HalfHardy, Tender, VeryTender };
enum class Feeder { Light, Medium, Heavy, Legume };
enum class Curve {
  Heading,
  Leafy,
  Root,
  Bulb,
  Fruiting,
  Maize,
  Tuber,
  Grain,
  Legume,
  Cover,
  Perennial
};
enum class YieldUnit { Kilograms, Stems, None };
enum class LifeCycle { Annual, Biennial, Perennial };
enum class Work { Low, Medium, High };
enum class Regrowth { None, Low, Medium, High };
/// What its chopped green tissue releases.
enum class Fumigant { None, Glucosinolate, Dhurrin };
/// Where a cover's sowing window hangs.
enum class FrostAnchor { LastFrost, FirstFrost };

}  // namespace aftercrop::catalogue
