#include "emit/bed_stands.h"

#include "aftercrop/ledger/walk.h"
#include "emit/calendar_rows.h"

namespace aftercrop::emit {
namespace {

const ledger::StandLine* line_of(const ledger::BedAccount* account,
                                 const garden::Planting* planting) {
  if (account == nullptr) return nullptr;
  for (const ledger::StandLine& line : account->stands) {
    if (line.planting == planting) return &line;
  }
  return nullptr;
}

}  // namespace

std::vector<BedStands> stands_by_bed(const CalendarInput& input,
                                     const std::vector<ledger::BedAccount>& accounts,
                                     calendar::Date since) {
  std::map<garden::BedId, const ledger::BedAccount*> account_of;
  for (const ledger::BedAccount& account : accounts) account_of[account.bed] = &account;
  const auto starts = start_tasks(input.tasks);
  std::vector<BedStands> beds;
  int number = 0;
  for (const garden::BedId bed : chosen_beds(input)) {
    BedStands one;
    one.bed = bed;
    if (const auto found = account_of.find(bed); found != account_of.end()) {
      one.account = found->second;
    }
    const auto rows = ledger::plantings_of(bed, input.garden.history, input.plan.plantings);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (rows[i]->to <= since) continue;
      StandView view;
      view.planting = rows[i];
      if (i > 0) view.previous = rows[i - 1];
      if (i + 1 < rows.size()) view.next = rows[i + 1];
      view.line = line_of(one.account, rows[i]);
      const auto start = starts.find({bed, rows[i]->crop, rows[i]->from});
      if (start != starts.end()) view.start = start->second;
      view.number = ++number;
      one.stands.push_back(view);
    }
    beds.push_back(std::move(one));
  }
  return beds;
}

std::vector<const garden::Planting*> plantings_in(const std::vector<BedStands>& beds) {
  std::vector<const garden::Planting*> all;
  for (const BedStands& bed : beds) {
    for (const StandView& stand : bed.stands) all.push_back(stand.planting);
  }
  return all;
}

}  // namespace aftercrop::emit
