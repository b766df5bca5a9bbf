#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/emit/tasks.h"
#include "emit/latest_start.h"

// The tasks of one stand.
namespace aftercrop::emit {

/// "faba cover" of "faba cover (bell bean, field bean)"; "brown (Indian) mustard" is whole.
[[nodiscard]] inline std::string short_name(const catalogue::Crop& crop) {
  const std::size_t bracket = crop.name.find(" (");
  const bool at_end = bracket != 0 && crop.name.ends_with(')');
  return at_end ? crop.name.substr(0, bracket) : crop.name;
}

struct StandContext {
  const garden::Garden& garden;
  const catalogue::Catalogue& catalogue;
  const garden::Planting& planting;
  const climate::SiteClimate& site;
  const climate::SiteClimate& open;            ///< the same site without shelter
  const garden::Planting* previous = nullptr;  ///< in the same bed
  const garden::Planting* next = nullptr;

  [[nodiscard]] const catalogue::Crop& crop() const { return catalogue.crop(planting.crop); }
  /// The crop's name without what stands in brackets.
  [[nodiscard]] std::string crop_name() const { return short_name(crop()); }
  [[nodiscard]] const garden::Bed& bed() const { return garden.bed(planting.bed); }
  /// A task of this stand; `latest` is the day itself until `until` says more.
  [[nodiscard]] Task task(TaskKind kind, calendar::Date date, std::string title,
                          std::string detail = {}) const;
  /// The stand after this one, where the plan has one.
  [[nodiscard]] std::optional<NextStand> follower() const;
  /// Set out as a plant, not sown.
  [[nodiscard]] bool set_out() const {
    return planting.raised.has_value() || crop().transplanted();
  }
};

/// The task with its last safe day; never before the day itself.
[[nodiscard]] Task until(Task task, const LatestDay& latest);

/// What is to be said of crop and partners at a moment of the stand.
[[nodiscard]] std::string cautions_at(catalogue::Moment moment, const StandContext& context);
/// The sentences of these cautions, one after the other, each once.
[[nodiscard]] std::string caution_text(const std::vector<std::string>& ids,
                                       const catalogue::Catalogue& catalogue,
                                       garden::UnitSystem units);

/// Raising, preparing, sowing or planting, thinning, supports.
void add_start(const StandContext& context, std::vector<Task>& out);
/// Looking at trap plants that stand with the crop, once a week.
void add_watching(const StandContext& context, std::vector<Task>& out);
/// First and last harvest, the ending, and the wait after it.
void add_end(const StandContext& context, std::vector<Task>& out);
/// Feeding of a bed, and the soil test before it.
void add_feeding(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                 const ledger::BedAccount& account, std::vector<Task>& out);
/// What the grower has decided to spread.
void add_applications(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                      std::vector<Task>& out);

}  // namespace aftercrop::emit
