// bed-double-booked: two stands in one section at once. Judged by their dates, not by weeks: a week
// in which one ends and the next begins is no clash.
#include <fmt/format.h>

#include "check/bed_rules.h"
#include "check/garden_rules.h"

namespace aftercrop::check {

std::vector<Overlap> overlaps_in(const std::vector<const garden::Planting*>& plantings) {
  std::vector<Overlap> overlaps;
  const garden::Planting* longest = nullptr;
  for (const garden::Planting* later : plantings) {
    const int days = longest != nullptr ? calendar::days_between(later->from, longest->to) : 0;
    if (days > 0) overlaps.push_back({later, longest, days});
    if (longest == nullptr || later->to > longest->to) longest = later;
  }
  return overlaps;
}

std::optional<diagnostic::Diagnostic> tell_overlap(const garden::Garden& garden,
                                                   const catalogue::Catalogue& catalogue,
                                                   garden::BedId bed, const Overlap& overlap) {
  auto finding = finding_of(garden, garden::RuleId::BedDoubleBooked);
  if (!finding) return {};
  const garden::Planting& later = *overlap.later;
  const garden::Planting& earlier = *overlap.earlier;
  finding->message = fmt::format(
      "{} starts {} day{} before {} is out of {}", catalogue.crop(later.crop).name, overlap.days,
      overlap.days == 1 ? "" : "s", catalogue.crop(earlier.crop).name, garden.bed(bed).name);
  finding->help =
      fmt::format("start it on {} or later, or move it to another bed", earlier.to.text());
  finding->source = later.source;
  finding->bed = garden.bed(bed).name;
  finding->week = calendar::week_of(later.from);
  finding->cause = catalogue.crop(later.crop).id;
  finding->measure = diagnostic::Measure{static_cast<double>(overlap.days), 0.0, "days"};
  finding->related.push_back(
      {fmt::format("{} stands here until {}", catalogue.crop(earlier.crop).name, earlier.to.text()),
       earlier.source});
  return finding;
}

}  // namespace aftercrop::check
