// want-unmet: less than was asked for is harvested inside its window.
#include <fmt/format.h>

#include "check/garden_rules.h"

namespace aftercrop::check {

void judge_wants(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                 const std::vector<garden::WantMet>& wants, diagnostic::Diagnostics& out) {
  // A repeated want is one line of the garden and one finding.
  for (std::size_t i = 0; i < garden.wants.size();) {
    const garden::Want& want = garden.wants[i];
    double asked = 0.0;
    double met = 0.0;
    std::size_t next = i;
    for (; next < garden.wants.size() && garden.wants[next].series == want.series; ++next) {
      asked += garden.wants[next].amount;
      met += wants[next].met;
    }
    i = next;
    if (asked <= 0.0 || met >= catalogue.coefficients.rules.want_met * asked) continue;
    auto finding = finding_of(garden, garden::RuleId::WantUnmet);
    if (!finding) return;
    const catalogue::Crop& crop = catalogue.crop(want.crop);
    finding->message =
        fmt::format("{}: {:.0f} % of what is wanted is met", crop.name, 100.0 * met / asked);
    const double per_m2 = garden::yield_per_m2(crop, want.unit);
    finding->help =
        per_m2 > 0.0
            ? fmt::format("{:.1f} m2 more of it would do at typical yield, or want less of it",
                          (asked - met) / per_m2)
            : "want less, or want it as an area";
    finding->source = want.source;
    finding->cause = crop.id;
    finding->measure = diagnostic::Measure{met, asked, std::string(garden::name(want.unit))};
    out.add(std::move(*finding));
  }
}

}  // namespace aftercrop::check
