// want-unmet: less than was asked for is harvested inside its window.
#include <fmt/format.h>

#include "aftercrop/garden/measure_text.h"
#include "check/garden_rules.h"

namespace aftercrop::check {

void judge_wants(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                 const std::vector<garden::WantMet>& wants, diagnostic::Diagnostics& out) {
  for (const garden::LineMet& line : garden::lines_met(garden, wants)) {
    if (line.asked <= 0.0 || line.share() >= catalogue.coefficients.rules.want_met) continue;
    auto finding = finding_of(garden, garden::RuleId::WantUnmet);
    if (!finding) return;
    const garden::Want& want = *line.want;
    const catalogue::Crop& crop = catalogue.crop(want.crop);
    finding->message =
        fmt::format("{}: {:.0f} % of what is wanted is met", crop.name, 100.0 * line.share());
    const double per_m2 = garden::yield_per_m2(crop, want.unit);
    finding->help =
        per_m2 > 0.0
            ? fmt::format("{} more of it would do at typical yield, or want less of it",
                          garden::area_text((line.asked - line.met) / per_m2, garden.units))
            : "want less, or want it as an area";
    finding->source = want.source;
    finding->cause = crop.id;
    finding->measure =
        diagnostic::Measure{line.met, line.asked, std::string(garden::name(want.unit))};
    out.add(std::move(*finding));
  }
}

}  // namespace aftercrop::check
