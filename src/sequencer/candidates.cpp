#include "sequencer/candidates.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "aftercrop/climate/window.h"
#include "aftercrop/nitrogen/uptake.h"

namespace aftercrop::sequencer {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using catalogue::Ending;

constexpr int kLongestCoverWeeks = 44;
constexpr std::size_t kLegumesAPlace = 2;  // best legumes kept of those with equal weeks
constexpr std::size_t kOthersAPlace = 1;

bool any_caution(const catalogue::Crop& crop, const std::set<std::string>& ids) {
  return std::any_of(crop.cautions.begin(), crop.cautions.end(),
                     [&](const std::string& id) { return ids.count(id) == 1; });
}

/// What a garden with children leaves out: toxic seed and irritant gas.
bool left_out(const garden::Garden& garden, const catalogue::Crop& crop) {
  static const std::set<std::string> kToxic = {"lupin-alkaloid", "vetch-seed", "sunn-hemp-seed",
                                               "mustard-gas",    "faba-g6pd",  "prussic-acid"};
  return garden.children && any_caution(crop, kToxic);
}

Ending usual_ending(const catalogue::Crop& crop) {
  return crop.root_harvest() ? Ending::HarvestedPulled : Ending::HarvestedCut;
}

class Finder {
 public:
  Finder(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
         const climate::SiteClimate& site, const Objective& objective, bool disease_seen)
      : garden_(&garden),
        catalogue_(&catalogue),
        site_(&site),
        objective_(&objective),
        disease_seen_(disease_seen) {}

  std::vector<ledger::StandSpec> of_crop(catalogue::CropId crop) {
    add_crop(crop);
    return std::move(found_);
  }

  std::vector<ledger::StandSpec> run() {
    std::set<catalogue::CropId> wanted;
    for (const garden::Want& want : garden_->wants) wanted.insert(want.crop);
    for (const catalogue::CropId crop : wanted) add_crop(crop);
    for (std::size_t i = 0; i < catalogue_->crops.size(); ++i) {
      // Mixtures stand where the grower puts them; their parts are what is proposed.
      const catalogue::Crop& crop = catalogue_->crops[i];
      if (crop.is_cover() && crop.mixture.empty()) add_cover(catalogue::CropId(i));
    }
    keep_best_covers();
    std::stable_sort(found_.begin(), found_.end(), [](const auto& a, const auto& b) {
      return std::tuple(a.weeks.first, a.crop, a.weeks.past, a.ending) <
             std::tuple(b.weeks.first, b.crop, b.weeks.past, b.ending);
    });
    return std::move(found_);
  }

 private:
  void add_crop(catalogue::CropId id) {
    const catalogue::Crop& crop = catalogue_->crop(id);
    if (crop.perennial() || crop.is_cover() || left_out(*garden_, crop)) return;
    for (Week week = garden_->seasons.first; week < garden_->seasons.past; ++week) {
      if (!climate::judge_start(crop, *site_, week).open()) continue;
      const auto growing = climate::weeks_to_harvest(crop, *site_, week);
      if (!growing) continue;
      std::set<int> spans = {crop.harvest_weeks_min, crop.harvest_weeks_max};
      for (int span : spans) add_stand(id, week, week + *growing, std::max(1, span));
    }
  }

  void add_stand(catalogue::CropId id, Week start, Week harvest, int span) {
    const catalogue::Crop& crop = catalogue_->crop(id);
    const auto deadline = climate::harvest_deadline(crop, *site_, harvest);
    ledger::StandSpec spec;
    spec.crop = id;
    spec.harvest = {harvest, harvest + Weeks(span)};
    if (deadline) spec.harvest.past = std::min(spec.harvest.past, *deadline + Weeks(1));
    if (spec.harvest.length().count() < std::max(1, crop.harvest_weeks_min)) return;
    spec.weeks = {start, spec.harvest.past};
    spec.ending = usual_ending(crop);
    const bool twice = std::any_of(found_.rbegin(), found_.rend(), [&](const auto& other) {
      return other.crop == id && other.weeks == spec.weeks;
    });
    if (twice || objective_->supply_of(spec, 1.0).empty()) return;
    found_.push_back(spec);
    if (disease_seen_ && works_as_residue(id)) {
      spec.ending = Ending::Incorporated;
      found_.push_back(spec);
    }
  }

  bool works_as_residue(catalogue::CropId id) const {
    for (const catalogue::Pathogen& pathogen : catalogue_->pathogens) {
      for (const catalogue::Biofumigation& row : pathogen.biofumigation) {
        if (row.crop_residue && std::count(row.plants.begin(), row.plants.end(), id) > 0) {
          return true;
        }
      }
    }
    return false;
  }

  void add_cover(catalogue::CropId id) {
    const catalogue::Crop& crop = catalogue_->crop(id);
    if (crop.perennial() || left_out(*garden_, crop)) return;
    for (Week week = garden_->seasons.first; week < garden_->seasons.past; ++week) {
      if (climate::judge_start(crop, *site_, week).open()) add_cover_from(id, week);
    }
  }

  void add_cover_from(catalogue::CropId id, Week start) {
    const catalogue::Crop& crop = catalogue_->crop(id);
    const auto killed =
        climate::killed_by_frost(crop, *site_, {start, start + Weeks(kLongestCoverWeeks)});
    const auto& endings = crop.cover->endings;
    const auto may = [&](Ending ending) {
      return std::find(endings.begin(), endings.end(), ending) != endings.end();
    };
    if (killed && may(Ending::Winterkilled)) {
      add_cover_stand(id, {start, *killed + Weeks(1)}, Ending::Winterkilled);
    }
    const auto& growth = site_->coefficients().covers;
    bool useful = false;
    double last_end = 0.0;
    for (int weeks = 3; weeks <= kLongestCoverWeeks; ++weeks) {
      const WeekSpan span{start, start + Weeks(weeks)};
      if (killed && span.past > *killed) break;
      const climate::CoverProgress progress = climate::cover_progress(crop, *site_, span);
      if (progress.stand < 1.0) continue;
      if (progress.flower > growth.seed_progress) break;
      const bool ripe = progress.flower >= growth.dies_when_cut;
      const bool grows_again = crop.cover->regrowth == catalogue::Regrowth::High && !ripe;
      if (!useful && !grows_again && may(Ending::CutRootsLeft)) {
        add_cover_stand(id, span, Ending::CutRootsLeft);
      }
      const bool step = progress.flower >= last_end + 0.2 || !useful;
      if (step) {
        if (useful && !grows_again && may(Ending::CutRootsLeft)) {
          add_cover_stand(id, span, Ending::CutRootsLeft);
        }
        const bool digs = garden_->tillage != garden::Tillage::None && may(Ending::Incorporated);
        const bool fumigates = crop.cover->fumigant != catalogue::Fumigant::None && disease_seen_;
        if (digs && (fumigates || !crop.legume)) add_cover_stand(id, span, Ending::Incorporated);
        last_end = progress.flower;
      }
      useful = useful || !grows_again;
    }
  }

  void add_cover_stand(catalogue::CropId id, WeekSpan weeks, Ending ending) {
    ledger::StandSpec spec;
    spec.crop = id;
    spec.weeks = weeks;
    spec.harvest = {weeks.past, weeks.past};
    spec.ending = ending;
    covers_.push_back(spec);
  }

  double nitrogen_of(const ledger::StandSpec& spec) const {
    const catalogue::Crop& crop = catalogue_->crop(spec.crop);
    const auto progress = climate::cover_progress(crop, *site_, spec.weeks);
    const nitrogen::CoverGrowth growth =
        nitrogen::cover_growth(crop, progress.flower, catalogue_->coefficients.nitrogen);
    return nitrogen::demand_of_cover(crop, growth).total();
  }

  /// Of covers with the same weeks and ending that do the same work, the richest are enough;
  /// biofumigants stay where disease was seen.
  void keep_best_covers() {
    using Key = std::tuple<Week, Week, Ending, bool>;
    std::map<Key, std::vector<std::pair<double, ledger::StandSpec>>> places;
    for (const ledger::StandSpec& spec : covers_) {
      const catalogue::Crop& crop = catalogue_->crop(spec.crop);
      const bool fumigant = crop.cover->fumigant != catalogue::Fumigant::None;
      if (fumigant) {
        if (disease_seen_ && spec.ending == Ending::Incorporated) found_.push_back(spec);
        continue;
      }
      places[{spec.weeks.first, spec.weeks.past, spec.ending, crop.legume}].emplace_back(
          nitrogen_of(spec), spec);
    }
    for (auto& [key, rows] : places) {
      std::stable_sort(rows.begin(), rows.end(),
                       [](const auto& a, const auto& b) { return a.first > b.first; });
      const std::size_t keep = std::get<3>(key) ? kLegumesAPlace : kOthersAPlace;
      for (std::size_t i = 0; i < rows.size() && i < keep; ++i) found_.push_back(rows[i].second);
    }
  }

  const garden::Garden* garden_;
  const catalogue::Catalogue* catalogue_;
  const climate::SiteClimate* site_;
  const Objective* objective_;
  bool disease_seen_;
  std::vector<ledger::StandSpec> found_;
  std::vector<ledger::StandSpec> covers_;
};

}  // namespace

std::vector<ledger::StandSpec> candidate_stands(const garden::Garden& garden,
                                                const catalogue::Catalogue& catalogue,
                                                const climate::SiteClimate& site,
                                                const Objective& objective, bool disease_seen) {
  return Finder(garden, catalogue, site, objective, disease_seen).run();
}

std::vector<ledger::StandSpec> candidate_stands_of(const garden::Garden& garden,
                                                   const catalogue::Catalogue& catalogue,
                                                   const climate::SiteClimate& site,
                                                   const Objective& objective,
                                                   catalogue::CropId crop) {
  return Finder(garden, catalogue, site, objective, false).of_crop(crop);
}

}  // namespace aftercrop::sequencer
