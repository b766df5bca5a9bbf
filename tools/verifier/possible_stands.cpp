#include "possible_stands.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <tuple>

#include "aftercrop/climate/window.h"
#include "aftercrop/nitrogen/uptake.h"

namespace aftercrop::verifier {
namespace {

using calendar::Week;
using calendar::Weeks;
using catalogue::Ending;
using ledger::StandSpec;

constexpr int kShortestCover = 3;  // weeks
constexpr int kLongestCover = 44;
constexpr double kStep = 0.2;  // of it, between two ways to end a cover

/// Left out of gardens with children: toxic seed, irritant gas.
bool kept_from_children(const catalogue::Crop& crop) {
  constexpr std::string_view kToxic[] = {"faba-g6pd",    "lupin-alkaloid", "mustard-gas",
                                         "prussic-acid", "sunn-hemp-seed", "vetch-seed"};
  return std::any_of(crop.cautions.begin(), crop.cautions.end(), [&](const std::string& id) {
    return std::find(std::begin(kToxic), std::end(kToxic), id) != std::end(kToxic);
  });
}

/// Its residue works against some disease.
bool heals_as_residue(const catalogue::Catalogue& catalogue, catalogue::CropId id) {
  for (const catalogue::Pathogen& pathogen : catalogue.pathogens) {
    for (const catalogue::Biofumigation& row : pathogen.biofumigation) {
      const auto& plants = row.plants;
      if (row.crop_residue && std::find(plants.begin(), plants.end(), id) != plants.end()) {
        return true;
      }
    }
  }
  return false;
}

class Lister {
 public:
  Lister(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
         const climate::SiteClimate& site, const Wanted& wanted, bool disease_seen)
      : garden_(garden),
        catalogue_(catalogue),
        site_(site),
        wanted_(wanted),
        disease_seen_(disease_seen) {}

  std::vector<StandSpec> run() {
    for (std::size_t i = 0; i < catalogue_.crops.size(); ++i) {
      const catalogue::CropId id(i);
      const catalogue::Crop& crop = catalogue_.crop(id);
      if (crop.perennial() || (garden_.children && kept_from_children(crop))) continue;
      const bool asked = std::any_of(garden_.wants.begin(), garden_.wants.end(),
                                     [&](const garden::Want& want) { return want.crop == id; });
      for (Week week = garden_.seasons.first; week < garden_.seasons.past; ++week) {
        if (!climate::judge_start(crop, site_, week).open()) continue;
        if (crop.is_cover() && crop.mixture.empty()) cover_from(id, week);
        if (!crop.is_cover() && asked) crop_from(id, week);
      }
    }
    add_best_covers();
    return std::move(stands_);
  }

 private:
  void crop_from(catalogue::CropId id, Week start) {
    const catalogue::Crop& crop = catalogue_.crop(id);
    const auto growing = climate::weeks_to_harvest(crop, site_, start);
    if (!growing) return;
    const Week ripe = start + *growing;
    const auto deadline = climate::harvest_deadline(crop, site_, ripe);
    Week previous = start;
    for (const int span : {crop.harvest_weeks_min, crop.harvest_weeks_max}) {
      Week past = ripe + Weeks(std::max(1, span));
      if (deadline) past = std::min(past, *deadline + Weeks(1));
      if ((past - ripe).count() < std::max(1, crop.harvest_weeks_min) || past == previous) continue;
      previous = past;
      StandSpec spec;
      spec.crop = id;
      spec.weeks = {start, past};
      spec.harvest = {ripe, past};
      spec.ending = crop.root_harvest() ? Ending::HarvestedPulled : Ending::HarvestedCut;
      Harvest harvest;
      wanted_.add_harvest(spec, 1.0, harvest);
      if (harvest.empty()) continue;
      stands_.push_back(spec);
      if (!disease_seen_ || !heals_as_residue(catalogue_, id)) continue;
      spec.ending = Ending::Incorporated;
      stands_.push_back(spec);
    }
  }

  void cover_from(catalogue::CropId id, Week start) {
    const catalogue::Crop& crop = catalogue_.crop(id);
    const auto killed =
        climate::killed_by_frost(crop, site_, {start, start + Weeks(kLongestCover)});
    if (killed) offer_cover(id, {start, *killed + Weeks(1)}, Ending::Winterkilled);
    const bool fumigates = crop.cover->fumigant != catalogue::Fumigant::None && disease_seen_;
    const bool dug_in = garden_.tillage != garden::Tillage::None && (fumigates || !crop.legume);
    bool could_be_cut = false;  // at an earlier week
    double last = 0.0;          // progress at the last ending
    for (int weeks = kShortestCover; weeks <= kLongestCover; ++weeks) {
      const calendar::WeekSpan span{start, start + Weeks(weeks)};
      if (killed && span.past > *killed) break;
      const climate::CoverProgress progress = climate::cover_progress(crop, site_, span);
      if (progress.stand < 1.0) continue;
      if (progress.flower > site_.coefficients().covers.seed_progress) break;
      const bool grows_again = crop.cover->regrowth == catalogue::Regrowth::High &&
                               progress.flower < site_.coefficients().covers.dies_when_cut;
      const bool step = !could_be_cut || progress.flower >= last + kStep;
      if (step && !grows_again) offer_cover(id, span, Ending::CutRootsLeft);
      if (step && dug_in) offer_cover(id, span, Ending::Incorporated);
      if (step) last = progress.flower;
      could_be_cut = could_be_cut || !grows_again;
    }
  }

  void offer_cover(catalogue::CropId id, calendar::WeekSpan weeks, Ending ending) {
    const auto& endings = catalogue_.crop(id).cover->endings;
    if (std::find(endings.begin(), endings.end(), ending) == endings.end()) return;
    StandSpec spec;
    spec.crop = id;
    spec.weeks = weeks;
    spec.harvest = {weeks.past, weeks.past};
    spec.ending = ending;
    covers_.push_back(spec);
  }

  [[nodiscard]] double nitrogen_of(const StandSpec& spec) const {
    const catalogue::Crop& crop = catalogue_.crop(spec.crop);
    const double flower = climate::cover_progress(crop, site_, spec.weeks).flower;
    const auto growth = nitrogen::cover_growth(crop, flower, catalogue_.coefficients.nitrogen);
    return nitrogen::demand_of_cover(crop, growth).total();
  }

  void add_best_covers() {
    struct Row {
      std::tuple<Week, Week, Ending, bool> place;
      double nitrogen;
      StandSpec spec;
    };
    std::vector<Row> rows;
    for (const StandSpec& spec : covers_) {
      const catalogue::Crop& crop = catalogue_.crop(spec.crop);
      if (crop.cover->fumigant != catalogue::Fumigant::None) {
        if (disease_seen_ && spec.ending == Ending::Incorporated) stands_.push_back(spec);
        continue;
      }
      rows.push_back(
          {{spec.weeks.first, spec.weeks.past, spec.ending, crop.legume}, nitrogen_of(spec), spec});
    }
    std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) {
      return a.place != b.place ? a.place < b.place : a.nitrogen > b.nitrogen;
    });
    std::size_t taken = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (i > 0 && rows[i].place != rows[i - 1].place) taken = 0;
      const std::size_t most = std::get<3>(rows[i].place) ? 2 : 1;
      if (taken++ < most) stands_.push_back(rows[i].spec);
    }
  }

  const garden::Garden& garden_;
  const catalogue::Catalogue& catalogue_;
  const climate::SiteClimate& site_;
  const Wanted& wanted_;
  bool disease_seen_;
  std::vector<StandSpec> stands_;
  std::vector<StandSpec> covers_;
};

}  // namespace

std::vector<StandSpec> possible_stands(const garden::Garden& garden,
                                       const catalogue::Catalogue& catalogue,
                                       const climate::SiteClimate& site, const Wanted& wanted,
                                       bool disease_seen) {
  return Lister(garden, catalogue, site, wanted, disease_seen).run();
}

}  // namespace aftercrop::verifier
