#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/emit/order.h"
#include "aftercrop/emit/tasks.h"
#include "aftercrop/garden/garden.h"

namespace aftercrop::emit {

/// What a calendar is made of; all references must outlive it.
struct CalendarInput {
  const garden::Garden& garden;
  const catalogue::Catalogue& catalogue;
  const garden::Plan& plan;
  const std::vector<Task>& tasks;
  const std::vector<OrderLine>& order;
  std::string bed;  ///< name of a bed or section; empty = all
};

/// Plain text of at most 80 columns: beds with their stands, tasks week by week, the list to order.
[[nodiscard]] std::string calendar_txt(const CalendarInput& input);

/// RFC 4180, UTF-8, CRLF. One row a task (and a thing to order), or with `plantings` one row a
/// planting. A text cell that a spreadsheet would take for a formula gets an apostrophe.
[[nodiscard]] std::string calendar_csv(const CalendarInput& input, bool plantings);

struct IcsOptions {
  /// Days before the task at which a calendar program rings, in the evening (0 = that morning).
  std::optional<int> remind_days;
  /// The file that was written before, as a whole; empty = none.
  std::string previous;
};

/// RFC 5545 and 7986: one all-day event a task, one a week's orders. UIDs depend on the input
/// alone, so that a second import updates the first. An event that differs from `previous` gets
/// the next SEQUENCE, one that is gone is cancelled.
[[nodiscard]] std::string calendar_ics(const CalendarInput& input, const IcsOptions& options = {});

/// SVG: beds against time, a row a section, with the families' key. `as_of` draws a line at a day.
[[nodiscard]] std::string calendar_svg(const CalendarInput& input,
                                       const std::optional<calendar::Date>& as_of = {});

}  // namespace aftercrop::emit
