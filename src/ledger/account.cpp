#include "aftercrop/ledger/account.h"

#include <algorithm>
#include <array>

#include "aftercrop/ledger/walk.h"

namespace aftercrop::ledger {
namespace {

class Accountant : public Visitor {
 public:
  explicit Accountant(BedAccount& account) : account_(&account) {}

  void on_stand(const BedState& before, const Stand& stand, const garden::Planting& planting,
                const StandOutcome& outcome) override {
    account_->short_kg_ha += stand.cover ? 0.0 : outcome.flows.shortfall;
    account_->stands.push_back({&planting, stand, outcome, before});
  }

  void on_idle_week(const BedState& /*after*/, const nitrogen::WeekFlows& /*flows*/) override {}

 private:
  BedAccount* account_;
};

std::vector<double> central_loads(const BedState& state) {
  std::vector<double> loads;
  for (const Load& load : state.loads) loads.push_back(load.central);
  return loads;
}

/// The balances that nitrate tests were held against: what the postings before each add up to.
std::vector<TestLine> nitrate_lines(const BedLedger& ledger, const garden::Garden& garden,
                                    const BedAccount& account) {
  std::vector<TestLine> lines;
  const double share = ledger.catalogue().coefficients.nitrogen.test_tolerance;
  for (const NitrateTest& test : ledger.nitrate_tests()) {
    if (test.week < account.from || test.week >= account.until) continue;
    const garden::SoilTest& record = garden.tests[test.record];
    TestLine line;
    line.test = &record;
    line.week = test.week;
    line.computed = test.mineral;
    line.expected = account.opening.mineral;
    for (const nitrogen::Posting& posting : account.postings) {
      if (posting.week >= test.week) break;
      if (posting.pool == nitrogen::Pool::Mineral) line.expected += posting.kg_per_ha;
    }
    line.tolerance = std::max(share * test.mineral,
                              ledger.mineral_of_ppm(record.nitrate_digits, record.depth_cm));
    line.other_reading = record.typed_as_ppm
                             ? ledger.mineral_of_sample(record.typed_number, record.depth_cm)
                             : ledger.mineral_of_ppm(record.typed_number, record.depth_cm);
    line.other_tolerance = share * line.other_reading;
    lines.push_back(line);
  }
  return lines;
}

/// What is mineral as each wet or freezing season begins, and what of it nothing is there to take.
void add_winters(const BedLedger& ledger, BedAccount& account) {
  const double kept = ledger.catalogue().coefficients.nitrogen.surplus_kept;
  double mineral = account.opening.mineral;
  auto next = account.postings.begin();
  bool was_winter = ledger.winter(account.from);
  for (calendar::Week week = account.from; week < account.until; ++week) {
    const bool winter = ledger.winter(week);
    if (winter && !was_winter) {
      const bool grown =
          std::any_of(account.stands.begin(), account.stands.end(),
                      [&](const StandLine& line) { return line.stand.spec.weeks.contains(week); });
      account.winters.push_back({week, mineral, grown});
      if (!grown) account.surplus_kg_ha = std::max(account.surplus_kg_ha, mineral - kept);
    }
    was_winter = winter;
    for (; next != account.postings.end() && next->week == week; ++next) {
      if (next->pool == nitrogen::Pool::Mineral) mineral += next->kg_per_ha;
    }
  }
}

/// Counts of a disease, held against the load that the ledger had.
void add_disease_lines(const BedLedger& ledger, const garden::Garden& garden, BedAccount& account) {
  const double share = ledger.catalogue().coefficients.nitrogen.test_tolerance;
  for (const LoadEvent& event : account.load_events) {
    if (event.cause != LoadEvent::Cause::Test) continue;
    const catalogue::PathogenId disease = account.tracked[event.tracked];
    for (const garden::SoilTest& record : garden.tests) {
      if (record.bed != account.bed || record.disease != disease) continue;
      if (calendar::week_of(record.date) != event.week) continue;
      TestLine line;
      line.test = &record;
      line.week = event.week;
      line.disease = disease;
      line.expected = event.before;
      line.computed = event.load;
      line.tolerance = share * event.load;
      account.tests.push_back(line);
      break;
    }
  }
}

}  // namespace

bool TestLine::wrong_unit() const {
  if (test == nullptr || disease.known() || agrees()) return false;
  return std::abs(other_reading - expected) <= other_tolerance;
}

SiteClimates::SiteClimates(const garden::Garden& garden, const catalogue::Catalogue& catalogue) {
  const calendar::WeekSpan covered = covered_weeks(garden);
  for (const garden::Shelter shelter :
       {garden::Shelter::Open, garden::Shelter::Fleece, garden::Shelter::Tunnel}) {
    const bool used = shelter == garden::Shelter::Open ||
                      std::any_of(garden.beds.begin(), garden.beds.end(),
                                  [&](const garden::Bed& bed) { return bed.shelter == shelter; });
    // An unused shelter takes the open climate's place without being worked out.
    if (!used) {
      by_shelter_.push_back(by_shelter_.front());
      continue;
    }
    by_shelter_.emplace_back(garden.site.normals, shelter, covered, catalogue.coefficients.site,
                             garden.site.weather);
    for (const catalogue::Crop& crop : catalogue.crops) {
      by_shelter_.back().prepare(crop.base_c, crop.cap_c);
    }
  }
}

const climate::SiteClimate& SiteClimates::of(garden::Shelter shelter) const {
  return by_shelter_[static_cast<std::size_t>(shelter)];
}

BedAccount account(const BedLedger& ledger, const garden::Garden& garden,
                   const garden::Plan& plan) {
  BedAccount account;
  for (std::size_t i = 0; i < garden.beds.size(); ++i) {
    if (&garden.beds[i] == &ledger.bed()) account.bed = garden::BedId(i);
  }
  BedState state = ledger.opening();
  account.from = state.week;
  account.opening = state.pools;
  account.tracked = ledger.tracked();
  account.load_opening = central_loads(state);

  nitrogen::Journal journal;
  Accountant visitor(account);
  WalkOptions options;
  options.until = garden.seasons.past;
  options.journal = &journal;
  options.events = &account.load_events;
  options.visitor = &visitor;
  walk(ledger, state, plantings_of(account.bed, garden.history, plan.plantings), options);

  account.until = state.week;
  account.closing = state.pools;
  account.load_closing = central_loads(state);
  account.postings = journal.postings();
  account.tests = nitrate_lines(ledger, garden, account);
  add_disease_lines(ledger, garden, account);
  add_winters(ledger, account);
  return account;
}

}  // namespace aftercrop::ledger
