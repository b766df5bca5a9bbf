#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/climate/site_climate.h"
#include "aftercrop/climate/water.h"
#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/bed_state.h"
#include "aftercrop/ledger/stand.h"
#include "aftercrop/nitrogen/journal.h"
#include "aftercrop/nitrogen/residue.h"

namespace aftercrop::ledger {

/// The pathogens whose loads a garden carries: all that were seen or tested anywhere in it, and,
/// if `with_background`, those that are assumed everywhere.
[[nodiscard]] std::vector<catalogue::PathogenId> tracked_pathogens(
    const garden::Garden& garden, const catalogue::Catalogue& catalogue, bool with_background);

/// The span of weeks that a garden's ledgers may touch: from its first record to a year past the
/// last season.
[[nodiscard]] calendar::WeekSpan covered_weeks(const garden::Garden& garden);

/// A load that changed for another reason than time.
struct LoadEvent {
  calendar::Week week;
  std::size_t tracked = 0;
  double load = 0.0;    ///< central, after the event
  double before = 0.0;  ///< and before it
  double low = -1.0;    ///< at the published ends of half-life and efficacy; negative = not known
  double high = -1.0;
  enum class Cause { Opening, Host, Kill, Sighting, Test, YearEnd } cause = Cause::Opening;
  catalogue::CropId crop;
};

/// What a stand's crop meets of one trouble: the load times infection, and more where another
/// trouble that makes it worse stands in the bed too. Grows with every load.
[[nodiscard]] double met_cautious(const BedState& state, const Stand& stand, std::size_t tracked);
[[nodiscard]] double met_central(const BedState& state, const Stand& stand, std::size_t tracked);

/// A nitrate test as the ledger takes it.
struct NitrateTest {
  calendar::Week week;
  double mineral = 0.0;    ///< kg N/ha in the whole profile
  std::size_t record = 0;  ///< place in garden.tests
};

/// The two accounts of one bed. `step` is the one function that moves a bed through a week; the
/// ledger command, the rules, the checker and the sequencer all come here.
class BedLedger {
 public:
  /// All references must outlive the ledger.
  BedLedger(const catalogue::Catalogue& catalogue, const garden::Garden& garden, garden::BedId bed,
            const climate::SiteClimate& site, std::vector<catalogue::PathogenId> tracked);

  [[nodiscard]] const garden::Bed& bed() const { return garden_->bed(bed_); }
  [[nodiscard]] const garden::Garden& garden() const { return *garden_; }
  [[nodiscard]] const catalogue::Catalogue& catalogue() const { return *catalogue_; }
  [[nodiscard]] const climate::SiteClimate& site() const { return *site_; }
  [[nodiscard]] const std::vector<catalogue::PathogenId>& tracked() const { return tracked_; }

  /// The bed at its first record (or at the start of the seasons): default pools, background loads.
  [[nodiscard]] BedState opening() const;
  /// Works a planting out for this site.
  [[nodiscard]] Stand make_stand(const StandSpec& spec) const;

  /// One week, with a stand or idle. Order: tests and sightings of other stands, nitrogen, host
  /// growth or decay, harvest and ending, sighting of this stand, kill, floor.
  /// `stand` must hold `state.week`.
  nitrogen::WeekFlows step(BedState& state, const Stand* stand, nitrogen::Journal* journal,
                           std::vector<LoadEvent>* events = nullptr) const;

  /// The whole of a stand from `state.week`, which must be its first week.
  StandOutcome advance(BedState& state, const Stand& stand, nitrogen::Journal* journal = nullptr,
                       std::vector<LoadEvent>* events = nullptr) const;

  /// Idle weeks up to, not including, `until`.
  StandOutcome idle(BedState& state, calendar::Week until, nitrogen::Journal* journal = nullptr,
                    std::vector<LoadEvent>* events = nullptr) const;

  /// A week of the wet or freezing season in which ground should not lie bare.
  [[nodiscard]] bool winter(calendar::Week week) const;
  [[nodiscard]] double drainage_mm(calendar::Week week, climate::Ground ground) const;
  [[nodiscard]] const std::vector<NitrateTest>& nitrate_tests() const { return tests_; }
  /// kg N/ha in the whole profile that a concentration (ppm) in the sampled depth means.
  [[nodiscard]] double mineral_of_ppm(double ppm, double depth_cm) const;
  /// The same of an amount (kg N/ha) in the sampled depth.
  [[nodiscard]] double mineral_of_sample(double kg_per_ha, double depth_cm) const;

 private:
  struct Event {
    calendar::Week week;
    std::size_t tracked = 0;
    double load = 0.0;
    bool after_stand = false;  ///< seen on the stand that is there: applied at the week's end
    bool evidence = true;
    bool test = false;  ///< sets the load instead of raising it
  };
  void fill_rates(const catalogue::Soil& soil);
  /// kg N/ha a year that an incubation test tells of the soil; empty without one.
  [[nodiscard]] std::optional<double> tested_supply(double normal_weeks) const;
  void read_applications();
  void read_sightings();
  void read_tests();
  void apply_events(BedState& state, bool after_stand, std::vector<LoadEvent>* events) const;
  void apply_tests(BedState& state, nitrogen::Journal* journal) const;
  void live_loads(BedState& state, const Stand* stand) const;
  /// Returns the nitrogen of the week's harvest.
  double end_of_week(BedState& state, const Stand* stand, nitrogen::Journal* journal,
                     std::vector<LoadEvent>* events) const;
  /// What time and hosts have made of the loads at the end of a year.
  void note_year_end(const BedState& state, std::vector<LoadEvent>& events) const;
  [[nodiscard]] nitrogen::StandingCrop standing_crop(const BedState& state,
                                                     const Stand& stand) const;
  /// A perennial's year is over: its tops die back and lie on the bed, its roots stay.
  void shed_tops(BedState& state, const Stand& stand, nitrogen::Journal* journal) const;
  void finish_stand(BedState& state, const Stand& stand, nitrogen::Journal* journal,
                    std::vector<LoadEvent>* events) const;
  void fill_growth(Stand& stand) const;
  void fill_needs(Stand& stand) const;
  void fill_loads(Stand& stand) const;
  void fill_host(const catalogue::Pathogen& pathogen, const Stand& stand, StandLoad& load) const;
  void fill_returns(Stand& stand) const;
  [[nodiscard]] double infection(const catalogue::Pathogen& pathogen, const catalogue::Host& host,
                                 const Stand& stand) const;
  [[nodiscard]] std::size_t place(calendar::Week week) const;

  const catalogue::Catalogue* catalogue_;
  const garden::Garden* garden_;
  garden::BedId bed_;
  const climate::SiteClimate* site_;
  std::vector<catalogue::PathogenId> tracked_;
  calendar::WeekSpan covered_;
  calendar::Week opening_week_;
  std::vector<nitrogen::WeekRates> rates_;
  std::vector<nitrogen::Additions> additions_;  ///< one a covered week
  std::vector<char> winter_;
  std::vector<double> year_share_;  ///< of a year's normal weeks, one a covered week
  std::unique_ptr<climate::Drainage> drainage_;
  std::vector<Event> events_;
  std::vector<NitrateTest> tests_;
  std::vector<disease::LoadMap> rest_;  ///< one idle week, by tracked pathogen
  std::vector<double> floors_;          ///< what a load never falls below, by tracked pathogen
};

}  // namespace aftercrop::ledger
