// A bed's nitrogen on its sheet: what is ready for crops, week by week, and the sums by cause.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "emit/amounts.h"
#include "emit/chart.h"
#include "emit/ledger_years.h"
#include "emit/markup.h"
#include "emit/nitrogen_band.h"
#include "emit/page_parts.h"

namespace aftercrop::emit {
namespace {

using nitrogen::Cause;

constexpr std::size_t kLastCause = catalogue::kCauses - 1;

/// What is ready for crops, with its range.
ChartLine ready_line(const std::vector<ReadySpan>& spans, const garden::Bed& bed,
                     garden::UnitSystem units) {
  ChartLine line;
  line.style = "ready";
  for (const ReadySpan& span : spans) {
    line.points.push_back({span.week, bed_amount(span.amount.middle, bed, units)});
    line.low.push_back({span.week, bed_amount(span.amount.low, bed, units)});
    line.high.push_back({span.week, bed_amount(span.amount.high, bed, units)});
  }
  return line;
}

double highest(const std::vector<ChartPoint>& points) {
  double most = 0.0;
  for (const ChartPoint& point : points) most = std::max(most, point.value);
  return most;
}

double value_at(const std::vector<ChartPoint>& points, calendar::Week week) {
  double value = 0.0;
  for (const ChartPoint& point : points) {
    if (point.week <= week) value = point.value;
  }
  return value;
}

TimeChart ready_chart(const PageContext& page, const BedStands& bed) {
  const garden::UnitSystem units = page.input.garden.units;
  const std::string unit = bed_unit(units);
  TimeChart chart;
  chart.weeks = {bed.account->from, bed.account->until};
  chart.unit = unit + " for the bed";
  chart.title = fmt::format("Nitrogen ready for crops in bed {}, {} for the whole bed",
                            page.bed(bed.bed).name, unit);
  ChartLine line = ready_line(ready_spans(*bed.account, page.input.catalogue.coefficients.nitrogen),
                              page.bed(bed.bed), units);
  const double most = highest(line.points);
  chart.most = std::max({most, highest(line.high), 0.01}) * 1.04;
  int doses = 0;
  for (const ledger::StandLine& stand : bed.account->stands) {
    if (stand.planting == nullptr) continue;
    const calendar::WeekSpan weeks = garden::weeks_of(*stand.planting);
    chart.strips.push_back({weeks, page.families.style_class(stand.planting->crop)});
    if (stand.outcome.flows.bought <= 0.0 || weeks.first < page.input.garden.seasons.first)
      continue;
    chart.marks.push_back({{weeks.first, value_at(line.points, weeks.first)}, "dose"});
    ++doses;
  }
  chart.summary = fmt::format(
      "{} at the start, at most {}, {} at the end, by published ranges {} to {}; {} "
      "stand{} to be fed",
      two_digits(line.points.front().value), two_digits(most), two_digits(line.points.back().value),
      two_digits(line.low.back().value), two_digits(line.high.back().value), doses,
      doses == 1 ? " is" : "s are");
  chart.lines.push_back(std::move(line));
  return chart;
}

/// One row of the table of sums.
struct SumRow {
  std::string words;
  double amount = 0.0;  ///< in for the bed's unit, positive
  double low = 0.0;
  double high = 0.0;
};

struct Sums {
  std::vector<SumRow> in;
  std::vector<SumRow> out;
  double most = 0.0;
};

void put(std::vector<SumRow>& rows, const SumRow& row, double& most) {
  if (two_digits(row.amount) == "0") return;
  rows.push_back(row);
  most = std::max({most, row.amount, row.high});
}

/// The planned years, summed by cause.
Sums sums_of(const PageContext& page, const BedStands& bed) {
  const int first = calendar::iso(page.input.garden.seasons.first).year;
  std::map<Cause, double> by_cause;
  YearSum whole;
  for (const YearSum& year : sum_by_year(*bed.account)) {
    if (year.year < first) continue;
    for (const auto& [cause, kg] : year.mineral) by_cause[cause] += kg;
    whole.fixed += year.fixed;
    whole.bought += year.bought;
  }
  Sums sums;
  const auto amount = [&](double kg_per_ha) {
    return bed_amount(kg_per_ha, page.bed(bed.bed), page.input.garden.units);
  };
  for (std::size_t i = 0; i <= kLastCause; ++i) {
    const auto found = by_cause.find(static_cast<Cause>(i));
    if (found == by_cause.end()) continue;
    const catalogue::CauseText& text = page.input.catalogue.coefficients.nitrogen.causes[i];
    const double size = amount(std::abs(found->second));
    const SumRow row{std::string(text.words), size, size * text.low, size * text.high};
    put(found->second > 0.0 ? sums.in : sums.out, row, sums.most);
  }
  put(sums.in, {"fixed from the air by the crop", amount(whole.fixed), 0.0, 0.0}, sums.most);
  put(sums.in, {"missing: to be fed", amount(whole.bought), 0.0, 0.0}, sums.most);
  return sums;
}

std::string rows_of(const std::string& heading, const std::vector<SumRow>& rows,
                    const std::string& style, double most) {
  if (rows.empty()) return {};
  std::string out =
      fmt::format("<tbody class=\"{}\"><tr><th scope=\"rowgroup\" colspan=\"3\">{}</th></tr>\n",
                  style, heading);
  for (const SumRow& row : rows) {
    const std::string range =
        row.high > row.low
            ? fmt::format(" <small>{} to {}</small>", two_digits(row.low), two_digits(row.high))
            : "";
    out += fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td><td>{}{}</td></tr>\n",
                       markup(row.words), range_bar(row.amount, row.low, row.high, most),
                       two_digits(row.amount), range);
  }
  return out + "</tbody>\n";
}

}  // namespace

std::string nitrogen_part(const PageContext& page, const BedStands& bed) {
  if (bed.account == nullptr || bed.account->postings.empty()) return {};
  const Sums sums = sums_of(page, bed);
  std::string out = "<h4>Nitrogen</h4>\n<figure>" + time_chart(ready_chart(page, bed)) +
                    "<figcaption>Ready for crops, week by week, and how far that may be off by "
                    "the published ranges; below, what stood there. A triangle: a stand that is to "
                    "be fed.</figcaption></figure>\n";
  out += fmt::format(
      "<details class=\"sums\"><summary>Where it comes from and goes</summary><table><caption>The "
      "planned seasons together, {} for the whole bed; published range beside it</caption>\n",
      bed_unit(page.input.garden.units));
  out += rows_of("comes in", sums.in, "in", sums.most);
  out += rows_of("goes out", sums.out, "out", sums.most);
  return out + "</table></details>\n";
}

}  // namespace aftercrop::emit
