#pragma once

#include <string>
#include <vector>

#include "aftercrop/check/check.h"
#include "aftercrop/emit/calendar.h"
#include "aftercrop/ledger/account.h"

// Stands bed by bed, each with its neighbours in time: what pictures and bed sheets are made of.
namespace aftercrop::emit {

struct StandView {
  const garden::Planting* planting = nullptr;
  const garden::Planting* previous = nullptr;  ///< the forecrop, records included
  const garden::Planting* next = nullptr;
  const ledger::StandLine* line = nullptr;  ///< null where the account passed it over
  const Task* start = nullptr;              ///< null where it began before the seasons
  int number = 0;                           ///< of the page: 1, 2, ...
};

struct BedStands {
  garden::BedId bed;
  const ledger::BedAccount* account = nullptr;  ///< null where none was given
  std::vector<StandView> stands;                ///< in order of start
};

/// The beds asked for, in the garden's order, with all stands that end after `since`. `accounts`
/// may be empty.
[[nodiscard]] std::vector<BedStands> stands_by_bed(const CalendarInput& input,
                                                   const std::vector<ledger::BedAccount>& accounts,
                                                   calendar::Date since);

/// All plantings of these beds.
[[nodiscard]] std::vector<const garden::Planting*> plantings_in(const std::vector<BedStands>& beds);

}  // namespace aftercrop::emit
