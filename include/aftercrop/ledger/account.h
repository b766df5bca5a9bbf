#pragma once

#include <cmath>
#include <vector>

#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/bed_ledger.h"

namespace aftercrop::ledger {

/// The stand of a planting as the account saw it.
struct StandLine {
  const garden::Planting* planting = nullptr;  ///< lives as long as garden and plan
  Stand stand;
  StandOutcome outcome;
  BedState before;
};

/// A soil test as a balance assertion. Amounts of nitrogen are kg N/ha in the whole profile, loads
/// are in units of the damage threshold.
struct TestLine {
  const garden::SoilTest* test = nullptr;  ///< lives as long as the garden
  calendar::Week week;
  catalogue::PathogenId disease;  ///< unknown = nitrate
  double expected = 0.0;          ///< what the ledger said
  double computed = 0.0;          ///< what the test says: the ledger is set to it
  double tolerance = 0.0;         ///< the larger of the digits typed and a quarter of the test
  double other_reading = 0.0;     ///< nitrate: had the number been meant in the other unit
  double other_tolerance = 0.0;
  [[nodiscard]] double difference() const { return computed - expected; }
  [[nodiscard]] bool agrees() const { return std::abs(difference()) <= tolerance; }
  /// The number typed agrees with the ledger in the other unit only.
  [[nodiscard]] bool wrong_unit() const;
};

/// The bed as a wet or freezing season begins.
struct WinterStart {
  calendar::Week week;
  double mineral = 0.0;  ///< kg N/ha
  bool grown = false;    ///< a stand is there to take it up
};

/// A bed's two ledgers from its first record to the end of its plan.
struct BedAccount {
  garden::BedId bed;
  calendar::Week from;
  calendar::Week until;
  nitrogen::Pools opening;
  nitrogen::Pools closing;
  std::vector<nitrogen::Posting> postings;
  std::vector<StandLine> stands;
  std::vector<catalogue::PathogenId> tracked;
  std::vector<double> load_opening;  ///< central, one a tracked pathogen
  std::vector<double> load_closing;
  std::vector<LoadEvent> load_events;
  std::vector<TestLine> tests;
  std::vector<WinterStart> winters;
  double short_kg_ha = 0.0;    ///< demand that was not covered, whole time
  double surplus_kg_ha = 0.0;  ///< greatest mineral nitrogen over what may be left, where a winter
                               ///< begins without a stand
};

/// One climate a kind of shelter, shared by all beds of a garden.
class SiteClimates {
 public:
  SiteClimates(const garden::Garden& garden, const catalogue::Catalogue& catalogue);
  [[nodiscard]] const climate::SiteClimate& of(garden::Shelter shelter) const;

 private:
  std::vector<climate::SiteClimate> by_shelter_;
};

/// The rows with every disease at one published end: falling fastest (short half-life, high
/// efficacy of biofumigants), or slowest.
[[nodiscard]] catalogue::Catalogue at_its_fastest(const catalogue::Catalogue& rows);
[[nodiscard]] catalogue::Catalogue at_its_slowest(const catalogue::Catalogue& rows);

[[nodiscard]] BedAccount account(const BedLedger& ledger, const garden::Garden& garden,
                                 const garden::Plan& plan);

/// Gives the loads of a garden's accounts their published spans: each bed is accounted again with
/// the rows of `at_its_fastest` and of `at_its_slowest`.
void add_load_spans(std::vector<BedAccount>& accounts, const garden::Garden& garden,
                    const catalogue::Catalogue& rows, const SiteClimates& climates,
                    const garden::Plan& plan);

}  // namespace aftercrop::ledger
