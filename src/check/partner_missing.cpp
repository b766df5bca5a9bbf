// partner-missing: a pest that the garden names has a partner plant with field trials behind it
// (grades A and B; C is never advised unasked), and a crop that it troubles stands without.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "aftercrop/catalogue/provenance.h"
#include "aftercrop/garden/measure_text.h"
#include "check/garden_rules.h"

namespace aftercrop::check {
namespace {

using garden::RuleId;

bool has_partner(const garden::Planting& planting, const catalogue::PartnerRow& row) {
  return std::any_of(planting.partners.begin(), planting.partners.end(), [&](const auto& one) {
    return std::count(row.partner_crops.begin(), row.partner_crops.end(), one.crop) > 0;
  });
}

bool helps(const catalogue::PartnerRow& row, const std::string& pest, catalogue::CropId crop) {
  if (row.grade == 'C' || row.partner_for.empty()) return false;
  return std::count(row.pests.begin(), row.pests.end(), pest) > 0 &&
         std::count(row.partner_for.begin(), row.partner_for.end(), crop) > 0;
}

/// Stands that a pest troubles and that no partner of theirs answers.
struct Unanswered {
  int stands = 0;
  std::set<std::string> crops;
  const catalogue::PartnerRow* row = nullptr;  ///< the best graded
  const garden::Planting* first = nullptr;
  std::string bed;
};

Unanswered unanswered(const Ground& ground, const std::string& pest) {
  Unanswered found;
  for (std::size_t i = 0; i < ground.runs.size(); ++i) {
    for (const ledger::StandLine& line : ground.runs[i].lines) {
      if (line.stand.spec.weeks.first < ground.garden.seasons.first) continue;
      const catalogue::PartnerRow* best = nullptr;
      bool answered = false;
      for (const catalogue::PartnerRow& row : ground.catalogue.partners) {
        if (!helps(row, pest, line.stand.spec.crop)) continue;
        answered = answered || has_partner(*line.planting, row);
        if (best == nullptr || row.grade < best->grade) best = &row;
      }
      if (best == nullptr || answered) continue;
      ++found.stands;
      found.crops.insert(ground.catalogue.crop(line.stand.spec.crop).name);
      if (found.row == nullptr || best->grade < found.row->grade) found.row = best;
      if (found.first == nullptr) found.first = line.planting;
      if (found.bed.empty()) found.bed = ground.garden.beds[i].name;
    }
  }
  return found;
}

std::string listed(const std::set<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

}  // namespace

void judge_partners(const Ground& ground, diagnostic::Diagnostics& out) {
  for (const std::string& pest : ground.garden.pests) {
    const Unanswered found = unanswered(ground, pest);
    auto finding = finding_of(ground.garden, RuleId::PartnerMissing);
    if (!finding || found.row == nullptr) continue;
    const catalogue::PartnerRow& row = *found.row;
    std::set<std::string> plants;
    for (const catalogue::CropId id : row.partner_crops) {
      plants.insert(ground.catalogue.crop(id).name);
    }
    finding->message = fmt::format("{}: {} stand{} without a partner that answers it ({})", pest,
                                   found.stands, found.stands == 1 ? "" : "s", listed(found.crops));
    finding->help =
        garden::prose_text(fmt::format("{} with them, {} (grade {}: {}; {})", listed(plants),
                                       row.placement, row.grade, row.effect, row.cost),
                           ground.garden.units);
    finding->source = found.first->source;
    finding->bed = found.bed;
    finding->week = garden::weeks_of(*found.first).first;
    finding->cause = pest;
    finding->measure = diagnostic::Measure{static_cast<double>(found.stands), 0.0, "stands"};
    for (const catalogue::Citation& one : row.sources) {
      finding->references.push_back(catalogue::with_grade(one));
    }
    out.add(std::move(*finding));
  }
}

}  // namespace aftercrop::check
