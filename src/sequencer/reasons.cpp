#include "sequencer/reasons.h"

#include <fmt/format.h>

#include <algorithm>

#include "sequencer/obstacles.h"

namespace aftercrop::sequencer {
namespace {

constexpr double kMet = 0.95;  // as everywhere: nearer than this counts as met

/// Obstacles that cannot be spared: with any one of them away the want could be met.
Obstacles filtered(Land& land, double needed_m2) {
  Obstacles all;
  (void)land.most_m2(all);  // meets the rules that refuse
  all.rules = land.refusing();
  const auto is_short = [&](const Obstacles& left) {
    return !land.reaches(left, kMet * needed_m2);
  };
  const auto spare = [&](auto take_away) {
    Obstacles fewer = all;
    take_away(fewer);
    if (is_short(fewer)) all = fewer;
  };
  spare([](Obstacles& o) { o.season = false; });
  for (const garden::RuleId rule : std::set(all.rules)) {
    spare([&](Obstacles& o) { o.rules.erase(rule); });
  }
  spare([](Obstacles& o) { o.history = false; });
  spare([](Obstacles& o) { o.other_wants = false; });
  return all;
}

std::string joined(const std::vector<std::string>& parts, const char* last) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    text += i == 0 ? "" : i + 1 == parts.size() ? last : ", ";
    text += parts[i];
  }
  return text;
}

std::string help_of_rule(garden::RuleId rule) {
  switch (rule) {
    case garden::RuleId::FamilyBreak:
    case garden::RuleId::HostReturn:
      return "a shorter break accepted in one bed (accept:)";
    case garden::RuleId::ProneOnInfected:
      return "a resistant variety";
    case garden::RuleId::LegumeBeforeHeavyFeeder:
      return "legume-before-heavy-feeder set to warn";
    default:
      return fmt::format("{} set to warn", garden::card(rule).name);
  }
}

std::string words_of(const Obstacles& left, const Land& land, const WantRow& want, double met_m2,
                     const std::vector<BedClass>& classes) {
  std::vector<std::string> reasons;
  std::vector<std::string> helps;
  if (left.other_wants) reasons.emplace_back("the beds are held by other crops");
  for (const garden::RuleId rule : left.rules) {
    reasons.push_back(fmt::format("{} keeps it out", garden::card(rule).name));
    helps.push_back(help_of_rule(rule));
  }
  if (left.history && left.rules.empty()) reasons.emplace_back("what stood in the beds before");
  if (left.season) {
    reasons.emplace_back("the season is short for it");
    helps.emplace_back("an earlier sowing under fleece");
  }
  const double open = want.amount_m2 - met_m2;
  if (left.other_wants && land.best_share() > 0.0) {
    double area = 0.0;
    for (const BedClass& beds : classes) area = std::max(area, beds.area_m2);
    const double beds = open / (land.best_share() * std::max(area, 1e-9));
    const int whole = std::max(1, static_cast<int>(beds + 0.999));
    helps.insert(helps.begin(), fmt::format("{} bed{} more", whole, whole == 1 ? "" : "s"));
  }
  std::string text = joined(reasons, " and ");
  if (!helps.empty()) text += fmt::format("; would help: {}", joined(helps, " or "));
  return text;
}

double met_of(const WantRow& want, const Objective& objective, const Assignment& plan) {
  std::vector<double> delivered(objective.supplies().size(), 0.0);
  for (const Path& path : plan.paths) {
    for (const auto& [row, m2] : path.supply) delivered[static_cast<std::size_t>(row)] += m2;
  }
  std::vector<double> met;
  (void)objective.worth(delivered, &met);
  return met[want.want];
}

/// Nothing serves it anywhere: too little land in one piece, or no week.
std::string nowhere(const catalogue::Crop& crop, const std::vector<BedClass>& classes, Land& land) {
  const bool small = std::all_of(classes.begin(), classes.end(), [&](const BedClass& beds) {
    return beds.area_m2 < kMet * crop.smallest_stand_m2;
  });
  if (small) {
    return fmt::format(
        "every bed is smaller than the {:.1f} m2 it needs; would help: fewer sections",
        crop.smallest_stand_m2);
  }
  Obstacles covered;
  covered.other_wants = covered.history = covered.season = false;
  const char* const help =
      land.most_m2(covered) > 0.0 ? "; would help: an earlier sowing under fleece" : "";
  return fmt::format("no week of these seasons lets it be sown here and picked in the window{}",
                     help);
}

}  // namespace

std::string reason_for(const WantRow& want, const std::vector<BedClass>& classes,
                       const Objective& objective, const Assignment& plan) {
  if (classes.empty()) return "the garden has no beds";
  const ledger::BedLedger& any = *classes.front().ledger;
  const catalogue::Crop& crop = any.catalogue().crop(any.garden().wants[want.want].crop);
  if (crop.perennial()) return "a perennial: give it a bed with keep";
  Land land(want, classes, objective, plan);
  if (land.best_share() <= 0.0) return nowhere(crop, classes, land);
  Obstacles none;
  none.other_wants = none.history = none.season = false;
  if (!land.reaches(none, kMet * want.amount_m2)) {
    return fmt::format(
        "{} cannot give so much in the window; would help: more land, a wider window, or want less",
        any.garden().beds.size() == 1 ? "the one bed" : "all beds together");
  }
  const Obstacles left = filtered(land, want.amount_m2);
  const double met = met_of(want, objective, plan);
  if (!left.other_wants && !left.history && !left.season && left.rules.empty()) {
    return "the land and weeks it needs serve wants that are worth more";
  }
  return words_of(left, land, want, met, classes);
}

}  // namespace aftercrop::sequencer
