// Why this stands here: what it earns and saves, and which rules bind; each worked out by taking it
// away and looking at the bed again.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "aftercrop/climate/window.h"
#include "aftercrop/rules/window_words.h"
#include "explain/place.h"

namespace aftercrop::explain {
namespace {

using calendar::Week;
using calendar::Weeks;
using Kind = Reason::Kind;

constexpr double kLeastGrams = 1.0;
constexpr int kWindowWeeks = 40;

Reason weighed(Kind kind, std::string_view words, double grams) {
  return {kind,
          fmt::format(fmt::runtime(words), kAmount),
          {{grams / 1000.0, garden::WantUnit::Kilograms}}};
}

/// What rules would say without it.
void tell_rules_without(const Place& place, const Place::Trial& without, std::vector<Reason>& out) {
  std::set<std::string> told;
  for (const auto& finding : place.new_findings(without)) {
    if (!told.insert(finding.id + finding.message).second) continue;
    out.push_back(
        {Kind::Rule, fmt::format("without it: {} ({})", finding.message, finding.id), {}});
  }
  if (without.run.winters.size() > place.now().winters.size()) {
    const check::BareSpell& spell = without.run.winters.front();
    out.push_back({Kind::Winter, fmt::format("it covers the ground: without it the bed lies bare "
                                             "for {} wet or freezing weeks (bare-winter)",
                                             spell.weeks)});
  }
}

void tell_nitrogen(const Place& place, const Place::Trial& without, std::vector<Reason>& out) {
  const double saved = without.bought_g - place.bought_now_g();
  if (saved >= kLeastGrams) {
    out.push_back(weighed(
        Kind::Nitrogen, "it saves about {} nitrogen that this bed would have to be given", saved));
  } else if (saved <= -kLeastGrams) {
    out.push_back(
        weighed(Kind::Nitrogen, "it asks for about {} nitrogen more than an empty bed", -saved));
  }
  const double price = place.garden().costs.leached_per_kg;
  if (price <= 0.0) return;
  const double kept = 1000.0 * (without.value.leached - place.value().leached) / price;
  if (kept >= kLeastGrams) {
    out.push_back(
        weighed(Kind::Nitrogen, "it keeps about {} nitrogen from being washed out", kept));
  }
}

/// What rules say against it as it stands.
void tell_against(const Place& place, std::vector<Reason>& out) {
  const ledger::StandLine& line = *place.line();
  for (const check::Told& told : place.now().told) {
    if (told.line != static_cast<std::size_t>(&line - place.now().lines.data())) continue;
    const rules::Occasion occasion{place.ledger(), line.before, line.stand, false};
    const rules::Words words = rules::find_rule(told.breach.rule)->describe(told.breach, occasion);
    const bool dose = told.breach.rule == garden::RuleId::NitrogenShort && place.planned();
    if (told.breach.rule == garden::RuleId::FamilyBreak || dose) continue;  // said elsewhere
    out.push_back(
        {Kind::Rule, fmt::format("a {} stands against it: {} ({})", diagnostic::name(told.severity),
                                 words.message, garden::card(told.breach.rule).name)});
  }
}

/// The open weeks around its start.
void tell_window(const Place& place, std::vector<Reason>& out) {
  const ledger::StandLine& line = *place.line();
  const catalogue::Crop& crop = place.catalogue().crop(line.stand.spec.crop);
  const Week start = line.stand.spec.weeks.first;
  const auto open = [&](Week week) {
    return climate::judge_start(crop, place.site(), week).open() &&
           (crop.is_cover() || climate::weeks_to_harvest(crop, place.site(), week).has_value());
  };
  if (crop.perennial() || !open(start)) return;
  Week first = start;
  Week last = start;
  for (int i = 0; i < kWindowWeeks && open(first - Weeks(1)); ++i) first = first - Weeks(1);
  for (int i = 0; i < kWindowWeeks && open(last + Weeks(1)); ++i) ++last;
  out.push_back({Kind::Window,
                 fmt::format("here it may be started from {} to {}", calendar::monday(first).text(),
                             calendar::monday(last).plus_days(6).text())});
  const std::string cultivar = rules::cultivar_words(crop, place.site(), start);
  if (!cultivar.empty()) {
    out.push_back({Kind::Window, fmt::format("its dates count on an {}: others are slow or not "
                                             "ready in time",
                                             cultivar)});
  }
}

void tell_idle(const Place& place, const std::vector<Option>& others, std::vector<Reason>& out) {
  const int weeks = place.room().length().count();
  if (others.empty()) {
    out.push_back({Kind::Idle, fmt::format("nothing that you want and no cover fits the {} free "
                                           "weeks from {} by the rules",
                                           weeks, calendar::monday(place.room().first).text())});
    return;
  }
  const Option& best = others.front();
  const std::string& name = place.catalogue().crop(best.planting.crop).name;
  if (best.value_change <= 0.0) {
    out.push_back({Kind::Idle, fmt::format("of {} stands that fit the {} free weeks none makes the "
                                           "plan better; {} comes nearest",
                                           others.size(), weeks, name)});
  } else {
    out.push_back({Kind::Idle, fmt::format("it could be better: {} from {} fits the free weeks and "
                                           "makes the plan worth more",
                                           name, best.planting.from.text())});
  }
}

}  // namespace

std::string_view name(Kind kind) {
  switch (kind) {
    case Kind::Decided:
      return "decided";
    case Kind::Want:
      return "want";
    case Kind::Cover:
      return "cover";
    case Kind::Nitrogen:
      return "nitrogen";
    case Kind::Winter:
      return "winter";
    case Kind::Rule:
      return "rule";
    case Kind::Window:
      return "window";
    case Kind::Idle:
      break;
  }
  return "idle";
}

std::vector<Reason> reasons(const Place& place, const std::vector<Option>& others) {
  if (place.line() == nullptr) {
    std::vector<Reason> idle;
    tell_idle(place, others, idle);
    return idle;
  }
  std::vector<Reason> out = place.standing_reasons();
  const Place::Trial without = place.with(nullptr);
  tell_rules_without(place, without, out);
  tell_nitrogen(place, without, out);
  tell_against(place, out);
  tell_window(place, out);
  return out;
}

Explanation explain(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                    const ledger::SiteClimates& climates, const garden::Plan& plan,
                    const Question& question) {
  const Place place(garden, catalogue, climates, plan, question);
  Explanation told;
  told.bed = question.bed;
  told.week = question.week;
  told.stands = place.stands();
  told.next = place.next();
  told.room = place.room();
  told.plan_value = place.value().total();
  if (place.stands() != nullptr && std::abs(told.plan_value) > 1e-9) {
    const double without = place.with(nullptr).value.total();
    told.share_of_value = (told.plan_value - without) / std::abs(told.plan_value);
  }
  told.others = options(place);
  if (question.crop) told.asked = best_option(place, *question.crop);
  told.reasons = reasons(place, told.others);
  return told;
}

}  // namespace aftercrop::explain
