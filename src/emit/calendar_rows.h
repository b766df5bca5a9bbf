#pragma once

#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "aftercrop/emit/calendar.h"

// What all calendar forms share.
namespace aftercrop::emit {

/// The beds asked for, in the garden's order.
[[nodiscard]] std::vector<garden::BedId> chosen_beds(const CalendarInput& input);
/// Tasks of the beds asked for, in their order.
[[nodiscard]] std::vector<const Task*> chosen_tasks(const CalendarInput& input);
/// Plantings of the beds asked for, by bed, then start.
[[nodiscard]] std::vector<const garden::Planting*> chosen_plantings(const CalendarInput& input);

/// The sowing or planting out of a stand by its bed, crop and first day; none for one that began
/// before the seasons.
using StartKey = std::tuple<garden::BedId, catalogue::CropId, calendar::Date>;
[[nodiscard]] std::map<StartKey, const Task*> start_tasks(const std::vector<Task>& tasks);

/// "2.1 g carrot seed", "24 garlic cloves".
[[nodiscard]] std::string order_text(const OrderLine& line, garden::UnitSystem units);

/// The list to order by the day that it is needed; empty for a calendar of one bed.
[[nodiscard]] std::map<calendar::Date, std::vector<const OrderLine*>> orders_by_day(
    const CalendarInput& input);
/// Why something must be there by its day.
inline constexpr const char* kOrderWhy = "its first use is in this week";

/// The event of one day's orders: the same for the same garden and day.
[[nodiscard]] std::string order_uid(const garden::Garden& garden, calendar::Date day);

}  // namespace aftercrop::emit
