#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/emit/calendar.h"
#include "aftercrop/explain/explain.h"
#include "aftercrop/ledger/account.h"

namespace aftercrop::emit {

/// What the page shows beyond a calendar; all references must outlive it.
struct PageInput {
  const CalendarInput& calendar;
  const std::vector<ledger::BedAccount>& accounts;
  const diagnostic::Diagnostics& findings;
  const explain::PlanReasons& reasons;
  std::optional<calendar::Date> as_of;  ///< "today"; without it the reader's own clock tells
};

/// One HTML document that needs nothing else: no network, no script to be read. The week at hand,
/// beds against time, tasks, the list to order, and a sheet for each bed.
[[nodiscard]] std::string calendar_html(const PageInput& input);

}  // namespace aftercrop::emit
