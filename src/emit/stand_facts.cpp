#include <fmt/format.h>

#include <array>
#include <string_view>

#include "emit/amounts.h"
#include "emit/ending_words.h"
#include "emit/explain_rows.h"
#include "emit/markup.h"
#include "emit/page_parts.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

/// Rows of a description list.
class Facts {
 public:
  void add(std::string_view name, const std::string& markup_text) {
    if (markup_text.empty()) return;
    text_ += fmt::format("<dt>{}</dt><dd>{}</dd>\n", name, markup_text);
  }
  [[nodiscard]] std::string list() const { return "<dl>\n" + text_ + "</dl>\n"; }

 private:
  std::string text_;
};

std::string forecrop(const PageContext& page, const StandView& stand) {
  if (stand.previous == nullptr) return "nothing on record";
  return fmt::format(
      "{}, {} on {}", markup(short_name(page.input.catalogue.crop(stand.previous->crop))),
      ending_words(stand.previous->ending), spoken_date(stand.previous->to.plus_days(-1)));
}

std::string follower(const PageContext& page, const StandView& stand) {
  if (stand.next == nullptr) return "nothing in this plan";
  return fmt::format("{} on {}", markup(short_name(page.input.catalogue.crop(stand.next->crop))),
                     spoken_date(stand.next->from));
}

std::string reasons(const PageContext& page, const StandView& stand) {
  std::string out;
  const auto found = page.reasons.find(stand.planting);
  if (found == page.reasons.end()) return out;
  for (const explain::Reason& reason : found->second) {
    const std::string words = words_of(reason, page.input.garden.units);
    out += fmt::format("{}{}", out.empty() ? "" : "; ", prose_markup(words));
  }
  return out.empty() ? "no want and no rule asks for it" : out;
}

std::string nitrogen(const PageContext& page, const StandView& stand) {
  if (stand.line == nullptr) return {};
  const garden::UnitSystem units = page.input.garden.units;
  const garden::Bed& bed = page.bed(stand.planting->bed);
  const auto amount = [&](double kg_per_ha) {
    return fmt::format("{} {}", two_digits(bed_amount(kg_per_ha, bed, units)), bed_unit(units));
  };
  const nitrogen::WeekFlows& flows = stand.line->outcome.flows;
  std::string out = fmt::format("{} ready in the bed as it starts; takes up {}",
                                amount(stand.line->before.pools.mineral), amount(flows.taken_up));
  if (flows.fixed > 0.0) out += fmt::format("; {} from the air", amount(flows.fixed));
  if (flows.bought > 0.0) {
    out += fmt::format("; {} is missing and to be fed", amount(flows.bought));
  }
  return out;
}

/// Loads of what this crop is prone to, as it starts: the low ones by name alone.
std::string diseases(const PageContext& page, const BedStands& bed, const StandView& stand) {
  if (stand.line == nullptr || bed.account == nullptr) return {};
  std::string high;
  std::string low;
  for (std::size_t i = 0; i < bed.account->tracked.size(); ++i) {
    if (i >= stand.line->before.loads.size() || i >= stand.line->stand.loads.size()) break;
    const double load = stand.line->before.loads[i].central;
    if (!stand.line->stand.loads[i].prone || load <= 0.0) continue;
    const catalogue::Pathogen& pathogen = page.input.catalogue.pathogen(bed.account->tracked[i]);
    if (load < pathogen.advise_at) {
      low += (low.empty() ? "low: " : ", ") + markup(pathogen.name);
      continue;
    }
    high += fmt::format("{}{}: {:.0f} % of what does damage", high.empty() ? "" : "; ",
                        markup(pathogen.name), 100.0 * load);
  }
  if (high.empty() && low.empty()) return "nothing known here that it is prone to";
  return high + (high.empty() || low.empty() ? "" : "; ") + low;
}

std::string partners(const PageContext& page, const StandView& stand) {
  std::string out;
  for (const garden::Partner& partner : stand.planting->partners) {
    out += (out.empty() ? "" : ", ") + markup(page.input.catalogue.crop(partner.crop).name);
  }
  return out;
}

const BedStands* bed_of(const PageContext& page, const StandView& stand) {
  for (const BedStands& bed : page.beds) {
    if (bed.bed == stand.planting->bed) return &bed;
  }
  return nullptr;
}

}  // namespace

std::string stand_facts(const PageContext& page, const StandView& stand) {
  const garden::Planting& planting = *stand.planting;
  const catalogue::Crop& crop = page.input.catalogue.crop(planting.crop);
  Facts facts;
  if (planting.raised) facts.add("Sown under cover", spoken_date(*planting.raised));
  facts.add("In the bed", fmt::format("{} to {}", spoken_date(planting.from),
                                      spoken_date(planting.to.plus_days(-1))));
  if (planting.harvest) {
    facts.add("Harvest", fmt::format("{} to {}", spoken_date(planting.harvest->first),
                                     spoken_date(planting.harvest->past.plus_days(-1))));
  }
  if (stand.start != nullptr) {
    facts.add("Latest safe start", fmt::format("{}: {}", spoken_date(stand.start->latest),
                                               prose_markup(stand.start->latest_why)));
  }
  facts.add("Ends", std::string(ending_words(planting.ending)));
  facts.add("After", forecrop(page, stand));
  facts.add("Then", follower(page, stand));
  facts.add("Why here", reasons(page, stand));
  facts.add("Nitrogen", nitrogen(page, stand));
  if (const BedStands* bed = bed_of(page, stand)) {
    facts.add("Disease", diseases(page, *bed, stand));
  }
  facts.add("With", partners(page, stand));
  facts.add("Family", markup(page.families.name(crop.family)));
  facts.add("Sources", fmt::format("<a href=\"#crop{}\">{}: figures and who says so</a>",
                                   planting.crop.place(), markup(crop.name)));
  return facts.list();
}

}  // namespace aftercrop::emit
