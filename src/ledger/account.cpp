#include "aftercrop/ledger/account.h"

#include <algorithm>
#include <array>

#include "aftercrop/ledger/walk.h"

namespace aftercrop::ledger {
namespace {

constexpr double kKeptInSoil =
    20.0;  // kg N/ha that is no surplus before a winter (common practice)

class Accountant : public Visitor {
 public:
  Accountant(const BedLedger& ledger, BedAccount& account) : ledger_(&ledger), account_(&account) {}

  void on_stand(const BedState& before, const Stand& stand, const garden::Planting& planting,
                const StandOutcome& outcome) override {
    account_->short_kg_ha += stand.cover ? 0.0 : outcome.flows.shortfall;
    account_->stands.push_back({&planting, stand, outcome, before});
  }

  void on_idle_week(const BedState& after, const nitrogen::WeekFlows& /*flows*/) override {
    const bool winter = ledger_->winter(after.week);
    if (winter && !was_winter_) {
      account_->surplus_kg_ha =
          std::max(account_->surplus_kg_ha, after.pools.mineral - kKeptInSoil);
    }
    was_winter_ = winter;
  }

 private:
  const BedLedger* ledger_;
  BedAccount* account_;
  bool was_winter_ = false;
};

std::vector<double> central_loads(const BedState& state) {
  std::vector<double> loads;
  for (const Load& load : state.loads) loads.push_back(load.central);
  return loads;
}

}  // namespace

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
    by_shelter_.emplace_back(garden.site.normals, shelter, covered);
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
  Accountant visitor(ledger, account);
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
  return account;
}

}  // namespace aftercrop::ledger
