#include "emit/seed.h"

#include <algorithm>
#include <cmath>

#include "aftercrop/emit/order.h"

namespace aftercrop::emit {
namespace {

using catalogue::Start;

constexpr double kSeedMargin = 1.3;    // common practice
constexpr double kPlantMargin = 1.1;   // common practice
constexpr double kGermination = 0.75;  // common practice
constexpr double kMgPerGram = 1000.0;

double seeds_a_station(const catalogue::Crop& crop) {
  return crop.seed_class == catalogue::SeedClass::Large ? 1.0 : 2.0;  // common practice
}

const char* planted_as(const catalogue::Crop& crop) {
  switch (crop.start) {
    case Start::Set:
      return " sets";
    case Start::Clove:
      return " cloves";
    case Start::Tuber:
      return " seed tubers";
    case Start::Slip:
      return " slips";
    case Start::Crown:
      return " crowns";
    case Start::RootCutting:
      return " root cuttings";
    default:
      return " plants";
  }
}

bool from_seed(const catalogue::Crop& crop, bool raised) {
  if (crop.seed_mass_mg <= 0.0) return false;
  return raised || crop.start == Start::Sow || crop.start == Start::Either;
}

}  // namespace

double stations(const catalogue::Crop& crop, const garden::Bed& bed) {
  if (crop.in_row_cm <= 0.0 || crop.between_row_cm <= 0.0) return 0.0;
  constexpr double kSlack = 1e-6;  // a bed of exactly three rows has three
  const double rows = std::floor(100.0 * bed.width.value() / crop.between_row_cm + kSlack);
  const double row = std::floor(100.0 * bed.length.value() / crop.in_row_cm + kSlack);
  return std::max(1.0, rows) * std::max(1.0, row);
}

Stock stock_for(const catalogue::Crop& crop, const garden::Bed& bed, double share, bool raised) {
  if (crop.is_cover() && crop.cover->seed_g_m2 > 0.0) {
    return {crop.name + " seed", share * crop.cover->seed_g_m2 * bed.area.value(), "g", 0.0};
  }
  const double plants = share * stations(crop, bed);
  if (from_seed(crop, raised)) {
    const double seeds =
        kSeedMargin * plants * (raised ? 1.0 : seeds_a_station(crop)) / kGermination;
    return {crop.name + " seed", seeds * crop.seed_mass_mg / kMgPerGram, "g", seeds};
  }
  return {crop.name + planted_as(crop), std::ceil(kPlantMargin * plants - 1e-9), "", 0.0};
}

std::vector<PartSeed> mixture_seed(const catalogue::Catalogue& catalogue,
                                   const catalogue::Crop& mixture) {
  double sole = 0.0;  // g/m2: the shares of the sole rates, before the rate of the mixture
  for (const catalogue::MixturePart& part : mixture.mixture) {
    sole += part.share * catalogue.crop(part.crop).cover->seed_g_m2;
  }
  std::vector<PartSeed> seed;
  for (const catalogue::MixturePart& part : mixture.mixture) {
    const double own = part.share * catalogue.crop(part.crop).cover->seed_g_m2;
    const double rate = sole > 0.0 ? own / sole * mixture.cover->seed_g_m2 : 0.0;
    seed.push_back({part.crop, part.share, rate});
  }
  return seed;
}

std::vector<Stock> stocks_for(const catalogue::Catalogue& catalogue, const catalogue::Crop& crop,
                              const garden::Bed& bed, double share, bool raised) {
  if (crop.mixture.empty()) return {stock_for(crop, bed, share, raised)};
  std::vector<Stock> stocks;
  for (const PartSeed& part : mixture_seed(catalogue, crop)) {
    const double grams = share * part.g_per_m2 * bed.area.value();
    stocks.push_back({catalogue.crop(part.crop).name + " seed", grams, "g", 0.0});
  }
  return stocks;
}

}  // namespace aftercrop::emit
