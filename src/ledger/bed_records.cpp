#include <algorithm>

#include "aftercrop/ledger/bed_ledger.h"

namespace aftercrop::ledger {
namespace {

using calendar::Date;
using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;

constexpr int kRunOnWeeks = 56;  // stands run on past the seasons for up to a year

/// Share of the mineral nitrogen of 0-60 cm that lies above `depth_cm`; `upper` = in its upper
/// half.
double share_above(double depth_cm, double upper) {
  if (depth_cm <= 30.0) return upper * depth_cm / 30.0;
  return std::min(1.0, upper + (1.0 - upper) * (depth_cm - 30.0) / 30.0);
}

Week first_record(const garden::Garden& garden, garden::BedId bed) {
  Week first = garden.seasons.first;
  const auto earlier = [&](Date date) { first = std::min(first, calendar::week_of(date)); };
  for (const auto& planting : garden.history) {
    if (planting.bed == bed) earlier(planting.from);
  }
  for (const auto& test : garden.tests) {
    if (test.bed == bed) earlier(test.date);
  }
  for (const auto& application : garden.applications) {
    if (application.bed == bed) earlier(application.date);
  }
  for (const auto& sighting : garden.sightings) {
    if (sighting.bed == bed) earlier(sighting.date);
  }
  return first;
}

double sighted_load(garden::SightingSeverity severity, const catalogue::DiseaseCoefficients& k) {
  switch (severity) {
    case garden::SightingSeverity::Trace:
      return k.sighting_trace;
    case garden::SightingSeverity::Some:
      return k.sighting_some;
    case garden::SightingSeverity::Severe:
      return k.sighting_severe;
  }
  return k.sighting_some;
}

/// Last week of the stand that was there on the day and can show the disease.
const garden::Planting* sick_stand(const garden::Garden& garden, garden::BedId bed, Date date,
                                   const catalogue::Pathogen& pathogen) {
  for (const auto& planting : garden.history) {
    if (planting.bed != bed || date < planting.from || date >= planting.to) continue;
    if (pathogen.host(planting.crop) != nullptr) return &planting;
  }
  return nullptr;
}

}  // namespace

std::vector<catalogue::PathogenId> tracked_pathogens(const garden::Garden& garden,
                                                     const catalogue::Catalogue& catalogue,
                                                     bool with_background) {
  std::vector<catalogue::PathogenId> tracked;
  for (std::size_t i = 0; i < catalogue.pathogens.size(); ++i) {
    const catalogue::PathogenId id(i);
    bool wanted = with_background && catalogue.pathogens[i].background;
    for (const auto& sighting : garden.sightings) wanted = wanted || sighting.disease == id;
    for (const auto& test : garden.tests) wanted = wanted || test.disease == id;
    if (wanted) tracked.push_back(id);
  }
  return tracked;
}

WeekSpan covered_weeks(const garden::Garden& garden) {
  WeekSpan covered{garden.seasons.first, garden.seasons.past};
  for (std::size_t i = 0; i < garden.beds.size(); ++i) {
    covered.first = std::min(covered.first, first_record(garden, garden::BedId(i)));
  }
  for (const auto& planting : garden.history) {
    covered.past = std::max(covered.past, garden::weeks_of(planting).past);
  }
  covered.past = covered.past + Weeks(kRunOnWeeks);
  return covered;
}

BedLedger::BedLedger(const catalogue::Catalogue& catalogue, const garden::Garden& garden,
                     garden::BedId bed, const climate::SiteClimate& site,
                     std::vector<catalogue::PathogenId> tracked)
    : catalogue_(&catalogue),
      garden_(&garden),
      bed_(bed),
      site_(&site),
      tracked_(std::move(tracked)),
      covered_(site.covered()),
      opening_week_(first_record(garden, bed)) {
  const catalogue::Soil& soil = catalogue.soil(garden.bed(bed).soil);
  climate::WaterOptions water;
  water.organic_matter_pct = garden.bed(bed).organic_matter_pct;
  water.watered = garden.bed(bed).watered;
  water.profile_m = catalogue.coefficients.nitrogen.profile_m;
  drainage_ = std::make_unique<climate::Drainage>(site, soil, water);
  fill_rates(soil);
  additions_.resize(rates_.size());
  read_applications();
  read_sightings();
  read_tests();
  for (const catalogue::PathogenId id : tracked_) {
    const catalogue::Pathogen& pathogen = catalogue.pathogen(id);
    rest_.push_back(disease::decay(1.0, pathogen.half_life_years.typical));
    floors_.push_back(pathogen.background ? catalogue.coefficients.disease.background_load.value
                                          : 0.0);
  }
}

void BedLedger::fill_rates(const catalogue::Soil& soil) {
  const catalogue::NitrogenCoefficients& k = catalogue_->coefficients.nitrogen;
  const garden::Bed& bed = garden_->bed(bed_);
  nitrogen::SoilFigures figures;
  figures.organic_matter_pct = bed.organic_matter_pct;
  figures.field_capacity =
      climate::field_capacity(soil, bed.organic_matter_pct, catalogue_->coefficients.site.water);
  figures.wetness = bed.poorly_drained ? k.wet_soil_gas.value : soil.wetness;
  figures.moisture = bed.watered ? k.moisture_watered : k.moisture_rainfed;

  double year = 0.0;
  double air = 0.0;
  const int year_weeks = std::min(52, covered_.length().count());
  for (int i = 0; i < year_weeks; ++i) {
    const climate::WeekWeather& weather = site_->at(covered_.first + Weeks(i));
    year += nitrogen::temperature_factor(weather.soil10_c, k.q10) * figures.moisture;
    air += weather.air_c / year_weeks;
  }
  const double relative = year / k.reference_weeks;
  if (relative > 0.0) {
    figures.annual_factor =
        std::clamp(relative, k.annual_factor_low.value, k.annual_factor_high.value) / relative;
  }
  if (const auto supply = tested_supply(year); supply && year > 0.0) {
    // What a laboratory found replaces the rule of thumb: the same sum over a year.
    const double om = std::min(figures.organic_matter_pct, k.om_cap.value);
    figures.annual_factor = *supply * k.reference_weeks / (k.supply_per_om * om * year);
  }
  for (Week week = covered_.first; week < covered_.past; ++week) {
    const climate::WeekWeather& weather = site_->at(week);
    std::array<double, 4> drained{};
    for (std::size_t g = 0; g < drained.size(); ++g) {
      drained[g] = drainage_->mm(week, static_cast<climate::Ground>(g));
    }
    rates_.push_back(nitrogen::week_rates(weather.soil10_c, drained, figures, k));
    year_share_.push_back(year > 0.0 ? nitrogen::temperature_factor(weather.soil10_c, k.q10) *
                                           figures.moisture / year
                                     : 0.0);
    const bool wet_or_freezing =
        weather.air_c < k.winter_air_c || drained[0] > k.winter_drainage_mm;
    winter_.push_back(!site_->no_season() && weather.air_c < air && wet_or_freezing ? 1 : 0);
  }
}

std::optional<double> BedLedger::tested_supply(double normal_weeks) const {
  const catalogue::NitrogenCoefficients& k = catalogue_->coefficients.nitrogen;
  std::optional<double> supply;
  Date latest;
  for (const garden::SoilTest& test : garden_->tests) {
    if (test.bed != bed_ || !test.mineralisable_ppm) continue;
    if (supply && test.date < latest) continue;
    const double density = catalogue_->soil(garden_->bed(bed_).soil).bulk_density;
    const double kg_ha = *test.mineralisable_ppm * 0.1 * test.depth_cm * density;
    supply = nitrogen::released_in(normal_weeks, nitrogen::mineralisable(kg_ha, k), k) /
             nitrogen::supply_share(test.depth_cm, k);
    latest = test.date;
  }
  return supply;
}

void BedLedger::read_applications() {
  const catalogue::NitrogenCoefficients& k = catalogue_->coefficients.nitrogen;
  const double quick = k.quick_share;
  for (const auto& application : garden_->applications) {
    if (application.bed != bed_) continue;
    const catalogue::Amendment& material = catalogue_->amendment(application.material);
    const double total = application.kg_per_m2 * 10000.0 * material.n_pct / 100.0;  // kg N/ha
    const double available = material.available.typical * total;
    const Week week = calendar::week_of(application.date);
    nitrogen::Additions& here = additions_[place(week)];
    if (material.fresh_matter) {
      const double dry = application.kg_per_m2 * 10.0 * material.dry_matter;  // t/ha
      const bool woody = material.tie_up_share < 1.0;  // all of its own nitrogen is slow
      here.fast += woody ? 0.0 : k.gross_share * total;
      here.tie_up += k.tie_up_per_dm * material.tie_up_share * dry;
      here.slow += woody ? total : k.slow_share * (1.0 - k.gross_share) * total;
      continue;
    }
    here.slow += material.slow_share * (total - available);
    if (material.quick) {
      here.fast += (1.0 - quick) * available;
      here.mineral += 0.5 * quick * available;
      additions_[place(week + Weeks(1))].mineral += 0.5 * quick * available;
    } else {
      here.fast += (1.0 - material.mineral_share) * available;
      here.mineral += material.mineral_share * available;
    }
  }
}

void BedLedger::read_sightings() {
  const catalogue::DiseaseCoefficients& k = catalogue_->coefficients.disease;
  for (const auto& sighting : garden_->sightings) {
    if (sighting.bed != bed_) continue;
    const auto at = std::find(tracked_.begin(), tracked_.end(), sighting.disease);
    if (at == tracked_.end()) continue;
    Event event;
    event.tracked = static_cast<std::size_t>(at - tracked_.begin());
    event.load = sighted_load(sighting.severity, k);
    if (sighting.shared) event.load *= k.other_section_share;
    event.evidence = !sighting.shared;
    const catalogue::Pathogen& pathogen = catalogue_->pathogen(sighting.disease);
    if (const auto* stand = sick_stand(*garden_, bed_, sighting.date, pathogen)) {
      event.week = garden::weeks_of(*stand).past - Weeks(1);
      event.after_stand = true;
    } else {
      const bool south = site_->latitude() < 0.0;
      const int year = sighting.date.year() + (south && sighting.date.month() > 6 ? 1 : 0);
      event.week = calendar::week_of(*Date::from_ymd(year, south ? 6 : 12, south ? 30 : 31));
    }
    // Planning starts from what is known: a sighting never waits for a day past the records.
    event.week = std::min(
        event.week, std::max(garden_->seasons.first - Weeks(1), calendar::week_of(sighting.date)));
    events_.push_back(event);
  }
}

double BedLedger::mineral_of_ppm(double ppm, double depth_cm) const {
  return mineral_of_sample(
      ppm * 0.1 * depth_cm * catalogue_->soil(garden_->bed(bed_).soil).bulk_density, depth_cm);
}

double BedLedger::mineral_of_sample(double kg_per_ha, double depth_cm) const {
  return kg_per_ha / share_above(depth_cm, catalogue_->coefficients.nitrogen.plough_layer_share);
}

void BedLedger::read_tests() {
  for (std::size_t i = 0; i < garden_->tests.size(); ++i) {
    const garden::SoilTest& test = garden_->tests[i];
    if (test.bed != bed_) continue;
    const Week week = calendar::week_of(test.date);
    if (test.nitrate_n_ppm) {
      tests_.push_back({week, mineral_of_ppm(*test.nitrate_n_ppm, test.depth_cm), i});
    }
    if (!test.disease) continue;
    const auto at = std::find(tracked_.begin(), tracked_.end(), *test.disease);
    if (at == tracked_.end()) continue;
    Event event;
    event.week = week;
    event.tracked = static_cast<std::size_t>(at - tracked_.begin());
    event.load = test.count / catalogue_->pathogen(*test.disease).threshold;
    event.test = true;
    events_.push_back(event);
  }
}

}  // namespace aftercrop::ledger
