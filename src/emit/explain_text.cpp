#include <fmt/format.h>

#include <cmath>

#include "aftercrop/diagnostic/render.h"
#include "aftercrop/emit/explain.h"
#include "diagnostic/text.h"
#include "emit/amounts.h"
#include "emit/bed_time_picture.h"
#include "emit/ending_words.h"
#include "emit/explain_rows.h"

namespace aftercrop::emit {
namespace {

using diagnostic::printable;

constexpr std::size_t kMostOthers = 12;
constexpr int kNameColumns = 28;
constexpr const char* kAsGood = "as good";
constexpr double kNothing = 0.0005;  // of the plan's value: said as "as good"

void add_folded(std::string& out, std::string_view text, int width) {
  bool first = true;
  for (const std::string& line : diagnostic::fold(printable(text), width - 4)) {
    out += fmt::format("  {} {}\n", first ? "-" : " ", line);
    first = false;
  }
}

/// The change as a share of the plan's value.
std::string worth_text(double change, const explain::Explanation& told) {
  const double whole = std::abs(told.plan_value);
  const double share = whole > 1e-9 ? change / whole : 0.0;
  if (std::abs(share) < kNothing) return kAsGood;
  return fmt::format("{:+.1f} %", 100.0 * share);
}

/// "-1.3 %" as "1.3 % less".
std::string more_or_less(const std::string& worth) {
  return fmt::format("{} {}", worth.substr(1), worth.front() == '-' ? "less" : "more");
}

std::string nitrogen_text(double grams, garden::UnitSystem units) {
  if (std::abs(grams) < 1.0) return "same";
  return (grams > 0.0 ? "+" : "-") + mass_text(std::abs(grams) / 1000.0, units);
}

std::string ids_of(const explain::Option& option) {
  std::string ids;
  for (const auto& finding : option.findings) {
    if (ids.find(finding.id) == std::string::npos) ids += (ids.empty() ? "" : ", ") + finding.id;
  }
  return ids;
}

std::string row_of(const explain::Option& option, const Explained& explained) {
  const std::string name =
      fitted(printable(explained.catalogue.crop(option.planting.crop).name), kNameColumns);
  std::string row = fmt::format(
      "  {}{} {}..{}  {:>8} {:>8}  {}", name,
      std::string(static_cast<std::size_t>(kNameColumns - diagnostic::columns_of(name)), ' '),
      option.planting.from.text(), option.planting.to.text().substr(5),
      worth_text(option.value_change, explained.told),
      nitrogen_text(option.nitrogen_change_g, explained.garden.units), ids_of(option));
  row.erase(row.find_last_not_of(' ') + 1);
  return row + '\n';
}

void add_stand(std::string& out, const Explained& explained, int width) {
  const explain::Explanation& told = explained.told;
  const garden::Bed& bed = explained.garden.bed(told.bed);
  out += fmt::format("Bed {}, week {} (from {})\n", printable(bed.name), calendar::text(told.week),
                     calendar::monday(told.week).text());
  if (told.stands == nullptr) {
    out += "No crop stands there.\n";
  } else {
    const garden::Planting& stand = *told.stands;
    out += fmt::format("{} stands there from {} to {}; {}.\n",
                       printable(explained.catalogue.crop(stand.crop).name), stand.from.text(),
                       stand.to.text(), ending_words(stand.ending));
  }
  out += "\nWhy\n";
  for (const explain::Reason& reason : told.reasons) {
    add_folded(out, words_of(reason, explained.garden.units), width);
  }
  if (told.stands == nullptr) return;
  if (told.plan_value > 0.0) {
    const std::string worth = worth_text(-told.share_of_value * told.plan_value, told);
    add_folded(out,
               worth == kAsGood
                   ? std::string("without it the plan would be as good")
                   : fmt::format("without it the plan is worth {}", more_or_less(worth)),
               width);
  }
  const LatestDay latest = latest_of(explained);
  add_folded(out, fmt::format("start it by {} at the latest: {}", latest.day.text(), latest.why),
             width);
}

void add_asked(std::string& out, const Explained& explained, int width) {
  if (!explained.crop) return;
  const std::string name = printable(explained.catalogue.crop(*explained.crop).name);
  out += fmt::format("\nWhy not {}\n", name);
  const explain::Explanation& told = explained.told;
  if (told.stands != nullptr && told.stands->crop == *explained.crop) {
    add_folded(out, "it stands there already", width);
    if (!told.asked) return;
  }
  if (!told.asked) {
    add_folded(out,
               fmt::format("from no week between {} and {} does it ripen here before the bed is "
                           "taken again",
                           calendar::monday(told.room.first).text(),
                           calendar::monday(told.room.past).text()),
               width);
    return;
  }
  const explain::Option& option = *told.asked;
  add_folded(
      out,
      fmt::format("best from {} to {}", option.planting.from.text(), option.planting.to.text()),
      width);
  for (const auto& finding : option.findings) {
    add_folded(
        out,
        fmt::format("{}[{}]: {}", diagnostic::name(finding.severity), finding.id, finding.message),
        width);
  }
  if (!option.allowed) return;
  const std::string nitrogen = nitrogen_text(option.nitrogen_change_g, explained.garden.units);
  const std::string worth = worth_text(option.value_change, told);
  if (worth == kAsGood) {
    add_folded(out, fmt::format("it would be as good; nitrogen to buy: {}", nitrogen), width);
    return;
  }
  add_folded(
      out,
      fmt::format("the plan would be worth {}; nitrogen to buy: {}", more_or_less(worth), nitrogen),
      width);
}

}  // namespace

std::string words_of(const explain::Reason& reason, garden::UnitSystem units) {
  std::string out;
  std::size_t next = 0;
  for (const char c : reason.words) {
    if (c != explain::kAmount) {
      out += c;
    } else if (next < reason.amounts.size()) {
      const explain::Amount& amount = reason.amounts[next++];
      out += amount.unit == garden::WantUnit::Kilograms
                 ? mass_text(amount.value, units)
                 : fmt::format("{} {}", two_digits(amount.value), garden::name(amount.unit));
    }
  }
  return out;
}

LatestDay latest_of(const Explained& explained) {
  std::optional<NextStand> next;
  if (explained.told.next != nullptr) {
    next = NextStand{explained.told.next->from,
                     explained.catalogue.crop(explained.told.next->crop).name};
  }
  const garden::Planting& stand = *explained.told.stands;
  return latest_start(stand, explained.catalogue.crop(stand.crop), explained.site, next);
}

std::string explain_text(const Explained& explained, int width) {
  std::string out;
  add_stand(out, explained, width);
  add_asked(out, explained, width);
  const auto& others = explained.told.others;
  out += fmt::format("\nWhat else could stand here{}\n",
                     others.empty() ? ": nothing by the rules" : "");
  if (!others.empty()) {
    out +=
        fmt::format("  {:<28} {:<17}  {:>8} {:>8}  {}\n", "", "", "value", "nitrogen", "findings");
  }
  for (std::size_t i = 0; i < others.size(); ++i) {
    if (i == kMostOthers) {
      out += fmt::format("  and {} more that are worth less\n", others.size() - i);
      break;
    }
    out += row_of(others[i], explained);
  }
  return out;
}

}  // namespace aftercrop::emit
