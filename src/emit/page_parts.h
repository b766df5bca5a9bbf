#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "aftercrop/explain/explain.h"
#include "emit/bed_time_picture.h"

// The parts of the page. Each returns whole elements.
namespace aftercrop::emit {

/// Cautions of a page, each told in full once and pointed at from where it is due.
class CautionBook {
 public:
  explicit CautionBook(const std::vector<const Task*>& tasks);
  /// First sentence, with a link to the rest where there is more.
  [[nodiscard]] std::string short_markup(const std::string& caution) const;
  /// The list of all in full; empty where there is none.
  [[nodiscard]] std::string section() const;
  [[nodiscard]] bool empty() const { return texts_.empty(); }

 private:
  std::vector<std::string> texts_;
  std::map<std::string, std::size_t> places_;
};

struct PageContext {
  const CalendarInput& input;
  const diagnostic::Diagnostics& findings;
  const explain::PlanReasons& reasons;
  const std::vector<BedStands>& beds;
  const FamilyStyles& families;
  const std::vector<const Task*>& tasks;
  const CautionBook& cautions;
  calendar::WeekSpan weeks;  ///< of the picture
  calendar::Week shown;      ///< the week at the top where nobody chose one
  std::optional<calendar::Date> as_of;

  [[nodiscard]] const garden::Bed& bed(garden::BedId id) const { return input.garden.bed(id); }
};

/// The week's tasks, what is picked, and the beds to scale with what stands there.
[[nodiscard]] std::string week_section(const PageContext& page);
/// The beds to scale, as they are in one week.
[[nodiscard]] std::string plot_view(const PageContext& page, calendar::Week week);
/// Beds against time, with the families' key.
[[nodiscard]] std::string picture_section(const PageContext& page);
/// All tasks, week by week, with filters.
[[nodiscard]] std::string tasks_section(const PageContext& page);
/// One task as a list item.
[[nodiscard]] std::string task_item(const PageContext& page, const Task& task);
/// The list to order, by the week in which it is needed; empty where nothing is.
[[nodiscard]] std::string order_section(const PageContext& page);
/// A sheet for each bed.
[[nodiscard]] std::string sheets_section(const PageContext& page);
/// Everything known of one stand, as a description list.
[[nodiscard]] std::string stand_facts(const PageContext& page, const StandView& stand);
/// A bed's nitrogen: over time, and where it comes from and goes.
[[nodiscard]] std::string nitrogen_part(const PageContext& page, const BedStands& bed);
/// A bed's disease loads over time.
[[nodiscard]] std::string disease_part(const PageContext& page, const BedStands& bed);
/// Findings as a list; `bed` empty = those of the whole garden and of beds without a sheet by that
/// name. Empty text where there are none.
[[nodiscard]] std::string findings_list(const PageContext& page, const std::string& bed);
/// Where the crops' figures come from.
[[nodiscard]] std::string sources_section(const PageContext& page);

}  // namespace aftercrop::emit
