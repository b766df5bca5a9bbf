// What a way out is looked among: starts, beds, endings, ends and covers that fit.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "aftercrop/climate/window.h"
#include "check/ways_out.h"

namespace aftercrop::check {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;
using catalogue::Ending;
using garden::Planting;

constexpr int kMostCoverWeeks = 30;
constexpr int kMostBeds = 60;
constexpr std::size_t kMostCovers = 40;
constexpr std::size_t kMostSwaps = 60;

bool may_end(const catalogue::Crop& cover, Ending ending) {
  const auto& endings = cover.cover->endings;
  return std::find(endings.begin(), endings.end(), ending) != endings.end();
}

bool irritates_or_poisons(const catalogue::Crop& crop) { return !crop.cautions.empty(); }

}  // namespace

std::optional<Planting> moved(const Planting& planting, Week start,
                              const catalogue::Catalogue& catalogue,
                              const climate::SiteClimate& site) {
  const catalogue::Crop& crop = catalogue.crop(planting.crop);
  Planting out = planting;
  out.from = calendar::monday(start);
  const int days = calendar::days_between(planting.from, out.from);
  if (planting.raised) out.raised = planting.raised->plus_days(days);
  out.to = planting.to.plus_days(days);
  if (!planting.harvest) return out;
  int growing = calendar::days_between(planting.from, planting.harvest->first);
  if (!crop.perennial() && !crop.is_cover()) {
    const auto weeks = climate::weeks_to_harvest(crop, site, start);
    if (!weeks) return {};
    growing = 7 * weeks->count();
  }
  const int picking = calendar::days_between(planting.harvest->first, planting.harvest->past);
  const int rest = calendar::days_between(planting.harvest->past, planting.to);
  out.harvest =
      calendar::DateSpan{out.from.plus_days(growing), out.from.plus_days(growing + picking)};
  out.to = out.harvest->past.plus_days(std::max(0, rest));
  return out;
}

void WayFinder::offer_moves(const Trouble& trouble, int first, int last, Offer& out) const {
  const Planting& planting = *trouble.planting;
  const Week planned = garden::weeks_of(planting).first;
  const WeekSpan gap = gap_around(trouble.bed, trouble.weeks, &planting);
  std::vector<int> steps;
  for (int step = first; step <= last; ++step) steps.push_back(step);
  std::stable_sort(steps.begin(), steps.end(), [](int a, int b) {
    return std::abs(a) < std::abs(b) || (std::abs(a) == std::abs(b) && a > b);
  });
  const auto& site = (*cases_)[trouble.bed.place()].ledger().site();
  for (const int step : steps) {
    const Week start = planned + Weeks(step);
    if (step == 0 || start < gap.first || start >= gap.past) continue;
    auto instead = moved(planting, start, *catalogue_, site);
    if (!instead) continue;
    if (catalogue_->crop(planting.crop).is_cover() && step > 0) {
      instead->to = std::max(planting.to, instead->from.plus_days(21));
    }
    if (garden::weeks_of(*instead).past > gap.past) continue;
    out.push_back({WayOut::Kind::Moved,
                   {{&planting, *instead}},
                   fmt::format("start it on {}", instead->from.text())});
  }
}

void WayFinder::offer_beds(const Trouble& trouble, Offer& out) const {
  const Planting& planting = *trouble.planting;
  const WeekSpan weeks = garden::weeks_of(planting);
  int offered = 0;
  for (std::size_t i = 0; i < garden_->beds.size() && offered < kMostBeds; ++i) {
    const garden::BedId bed(i);
    if (bed == trouble.bed) continue;
    const WeekSpan gap = gap_around(bed, weeks, nullptr);
    if (gap.first > weeks.first || gap.past < weeks.past) continue;
    WayOut way{WayOut::Kind::OtherBed, {{&planting, planting}}, {}};
    way.changes.front().instead.bed = bed;
    way.words = fmt::format("put it into bed {} on the same dates", garden_->bed(bed).name);
    out.push_back(std::move(way));
    ++offered;
  }
}

void WayFinder::offer_endings(const Planting& planting, Offer& out) const {
  const catalogue::Crop& crop = catalogue_->crop(planting.crop);
  std::vector<Ending> endings = {Ending::HarvestedCut};
  if (crop.is_cover()) endings = crop.cover->endings;
  for (const Ending ending : endings) {
    const bool digs = ending == Ending::Incorporated || ending == Ending::HarvestedPulled;
    if (ending == planting.ending) continue;
    if (digs && garden_->tillage == garden::Tillage::None) continue;
    WayOut way{WayOut::Kind::Ending, {{&planting, planting}}, {}};
    way.changes.front().instead.ending = ending;
    way.words = fmt::format("end {} `{}`", crop.name, catalogue::name(ending));
    out.push_back(std::move(way));
  }
}

void WayFinder::offer_other_ends(const Planting& planting, int longest, Offer& out) const {
  const catalogue::Crop& crop = catalogue_->crop(planting.crop);
  if (!crop.is_cover()) return;
  const WeekSpan weeks = garden::weeks_of(planting);
  const WeekSpan gap = gap_around(planting.bed, weeks, &planting);
  const int length = weeks.length().count();
  for (int change = 1; change < std::max(length - 2, longest + 1); ++change) {
    for (const int step : {-change, change}) {
      const Week past = weeks.past + Weeks(step);
      if (step > longest || length + step < 3 || past > gap.past) continue;
      WayOut way{WayOut::Kind::OtherEnd, {{&planting, planting}}, {}};
      way.changes.front().instead.to = calendar::monday(past);
      way.words = fmt::format("end {} on {}", crop.name, calendar::monday(past).text());
      out.push_back(std::move(way));
    }
  }
}

/// The stand before it, ended at another time or in another way.
void WayFinder::offer_forecrop(const Trouble& trouble, Offer& out) const {
  const Planting* before = stand_before(trouble);
  if (before == nullptr || before->kept) return;
  if (garden::weeks_of(*before).first < garden_->seasons.first) return;
  offer_other_ends(*before, 0, out);
  offer_endings(*before, out);
}

/// Changes places with a stand of about the same weeks in another bed.
void WayFinder::offer_swaps(const Trouble& trouble, Offer& out) const {
  const Planting& planting = *trouble.planting;
  const WeekSpan weeks = garden::weeks_of(planting);
  const WeekSpan own_gap = gap_around(trouble.bed, weeks, &planting);
  std::size_t offered = 0;
  for (const BedRun& run : *runs_) {
    for (const Planting* other : run.plantings) {
      const WeekSpan taken = garden::weeks_of(*other);
      if (taken.past <= weeks.first || other->bed == trouble.bed) continue;
      if (taken.first >= weeks.past || offered >= kMostSwaps) break;
      if (other->kept || other->crop == planting.crop) continue;
      const WeekSpan gap = gap_around(other->bed, taken, other);
      if (gap.first > weeks.first || gap.past < weeks.past) continue;
      if (own_gap.first > taken.first || own_gap.past < taken.past) continue;
      WayOut way{WayOut::Kind::Swapped, {{&planting, planting}, {other, *other}}, {}};
      way.changes.front().instead.bed = other->bed;
      way.changes.back().instead.bed = trouble.bed;
      way.words = fmt::format("let it change places with {} of {} in bed {}",
                              catalogue_->crop(other->crop).name, other->from.text(),
                              garden_->bed(other->bed).name);
      out.push_back(std::move(way));
      ++offered;
    }
  }
}

/// Covers for the free weeks before the stand, or of the bare ground: the latest useful start of
/// each, so that nothing else has to move; legumes and biofumigants where they are asked for.
void WayFinder::offer_covers(const Trouble& trouble, Kind kind, Offer& out) const {
  const BedCase& bed = (*cases_)[trouble.bed.place()];
  const climate::SiteClimate& site = bed.ledger().site();
  WeekSpan room = gap_around(trouble.bed, trouble.weeks, trouble.planting);
  if (trouble.planting != nullptr) room.past = trouble.weeks.first;
  const bool ground = trouble.planting == nullptr;
  std::size_t offered = 0;
  for (std::size_t i = 0; i < catalogue_->crops.size() && offered < kMostCovers; ++i) {
    const catalogue::Crop& crop = catalogue_->crops[i];
    if (!crop.is_cover() || crop.perennial() || (kind.legume && !crop.legume)) continue;
    if (kind.fumigant && crop.cover->fumigant == catalogue::Fumigant::None) continue;
    if (garden_->children && irritates_or_poisons(crop)) continue;
    for (Week start = room.first; start + Weeks(3) <= room.past; ++start) {
      if (ground && start >= trouble.weeks.past) break;
      if (!climate::judge_start(crop, site, start).open()) continue;
      const auto way = cover_from(trouble, catalogue::CropId(i), start, room.past);
      if (!way) continue;
      out.push_back(*way);
      ++offered;
      if (ground) break;  // the earliest start covers most
      start = start + Weeks(2);
    }
  }
}

std::optional<WayOut> WayFinder::cover_from(const Trouble& trouble, catalogue::CropId id,
                                            Week start, Week until) const {
  const catalogue::Crop& crop = catalogue_->crop(id);
  const climate::SiteClimate& site = (*cases_)[trouble.bed.place()].ledger().site();
  const bool fumigates = trouble.rule == garden::RuleId::BiofumigantBeforeProne;
  Planting cover;
  cover.bed = trouble.bed;
  cover.crop = id;
  cover.from = calendar::monday(start);
  const auto killed = climate::killed_by_frost(crop, site, {start, start + Weeks(kMostCoverWeeks)});
  // What frost may or may not kill is no advice to stand through winter.
  const auto likely_dead = climate::harvest_deadline(crop, site, start);
  std::optional<Week> end;
  if (killed && may_end(crop, Ending::Winterkilled) && *killed + Weeks(1) <= until && !fumigates) {
    end = *killed + Weeks(1);
    cover.ending = Ending::Winterkilled;
  } else {
    const bool cuts = may_end(crop, Ending::CutRootsLeft) && !fumigates;
    cover.ending = cuts ? Ending::CutRootsLeft : Ending::Incorporated;
    const int rest = fumigates ? 2 : 1;
    for (Week past = until - Weeks(rest); past > start + Weeks(3); past = past - Weeks(1)) {
      if (killed && past > *killed) continue;
      if (likely_dead && past > *likely_dead + Weeks(1)) continue;
      const auto progress = climate::cover_progress(crop, site, {start, past});
      if (progress.stand < 1.0) break;
      const bool grows_again = crop.cover->regrowth == catalogue::Regrowth::High && cuts;
      const auto& growth = site.coefficients().covers;
      const bool again = grows_again && progress.flower < growth.dies_when_cut;
      if (progress.flower > growth.seed_progress || again) continue;
      end = past;
      break;
    }
  }
  if (!end) return {};
  cover.to = calendar::monday(*end);
  return WayOut{WayOut::Kind::Added,
                {{nullptr, cover}},
                fmt::format("sow {} on {} and end it on {} ({})", crop.name, cover.from.text(),
                            cover.to.text(), catalogue::name(cover.ending))};
}

}  // namespace aftercrop::check
