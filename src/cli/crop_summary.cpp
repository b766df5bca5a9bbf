#include "cli/crop_summary.h"

#include <fmt/format.h>

#include <algorithm>

#include "aftercrop/catalogue/provenance.h"

namespace aftercrop::cli {
namespace {

using catalogue::Tally;

int figures_of(const Tally& one) {
  int sum = one.without;
  for (const int figures : one.figures) sum += figures;
  return sum;
}

Tally total(const std::vector<Tally>& all) {
  Tally sum;
  sum.table = "all";
  for (const Tally& one : all) {
    sum.rows += one.rows;
    sum.without += one.without;
    for (std::size_t i = 0; i < sum.figures.size(); ++i) sum.figures[i] += one.figures[i];
  }
  return sum;
}

std::string line(const Tally& one, bool without) {
  std::string text = fmt::format("{:<27} {:>5} {:>8}", one.table, one.rows, figures_of(one));
  for (std::size_t i = 0; i < one.figures.size(); ++i) {
    text += fmt::format(" {:>{}}", one.figures[i], catalogue::kGradeNames[i].size() + 1);
  }
  if (without) text += fmt::format(" {:>8}", one.without);
  return text + "\n";
}

std::string share_line(const Tally& sum) {
  const double all = std::max(1, figures_of(sum));
  std::string text;
  for (std::size_t i = 0; i < sum.figures.size(); ++i) {
    text += fmt::format("{}{:.0f} % {}", text.empty() ? "Of all figures " : ", ",
                        100.0 * sum.figures[i] / all, catalogue::kGradeNames[i]);
  }
  return text + "\n";
}

}  // namespace

std::string crop_summary(const catalogue::Catalogue& catalogue) {
  std::vector<Tally> all = catalogue::tally(catalogue);
  const Tally sum = total(all);
  const bool without = sum.without > 0;
  std::string text = fmt::format("{:<27} {:>5} {:>8}", "table", "rows", "figures");
  for (const std::string_view grade : catalogue::kGradeNames) {
    text += fmt::format(" {:>{}}", grade, grade.size() + 1);
  }
  text += without ? "  no grade\n" : "\n";
  all.push_back(sum);
  for (const Tally& one : all) text += line(one, without);
  return text + share_line(sum);
}

}  // namespace aftercrop::cli
