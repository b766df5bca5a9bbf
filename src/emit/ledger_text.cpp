#include "aftercrop/emit/ledger_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercrop/diagnostic/render.h"
#include "diagnostic/text.h"
#include "emit/amounts.h"
#include "emit/ledger_disease.h"
#include "emit/ledger_years.h"

namespace aftercrop::emit {
namespace {

using nitrogen::Cause;
using Causes = std::array<catalogue::CauseText, catalogue::kCauses>;

constexpr std::size_t kLabelColumns = 32;
constexpr std::size_t kCellColumns = 16;

/// The table of some years that fit side by side.
class YearTable {
 public:
  YearTable(const garden::Bed& bed, garden::UnitSystem units, const Causes& causes,
            std::vector<YearSum> years)
      : bed_(&bed), units_(units), causes_(&causes), years_(std::move(years)) {}

  [[nodiscard]] std::string text() const {
    std::string out = fmt::format("{:{}}", "", kLabelColumns);
    for (const YearSum& year : years_) out += fmt::format("{:>{}}", year.year, kCellColumns);
    out += '\n';
    add(out, "at the start, ready for crops", [](const YearSum& y) { return y.opening.mineral; });
    for (std::size_t i = 0; i < catalogue::kCauses; ++i) add_cause(out, static_cast<Cause>(i));
    add(out, "at the end, ready for crops", [](const YearSum& y) { return y.closing.mineral; });
    add(out, "held in residues and roots",
        [](const YearSum& y) { return y.closing.fast + y.closing.mulch + y.closing.slow; });
    add(out, "fixed from the air by the crop", [](const YearSum& y) { return y.fixed; });
    add(out, "missing: to be fed", [](const YearSum& y) { return y.bought; });
    add(out, "carried off the bed", [](const YearSum& y) { return y.removed; });
    return out;
  }

 private:
  void add_cause(std::string& out, Cause cause) const {
    const auto of = [cause](const YearSum& year) {
      const auto found = year.mineral.find(cause);
      return found == year.mineral.end() ? 0.0 : found->second;
    };
    const bool any = std::any_of(years_.begin(), years_.end(),
                                 [&](const YearSum& year) { return of(year) != 0.0; });
    if (!any) return;
    const catalogue::CauseText& words = (*causes_)[static_cast<std::size_t>(cause)];
    add_row(out, std::string(words.words),
            [&](const YearSum& year) { return with_range(of(year), words); });
  }

  template <class Value>
  void add(std::string& out, const std::string& label, Value value) const {
    add_row(out, label, [&](const YearSum& year) { return amount(value(year)); });
  }

  template <class Cell>
  void add_row(std::string& out, const std::string& label, Cell cell) const {
    out += fmt::format("{:{}}", label, kLabelColumns);
    for (const YearSum& year : years_) out += fmt::format("{:>{}}", cell(year), kCellColumns);
    out += '\n';
  }

  [[nodiscard]] std::string amount(double kg_per_ha) const {
    return two_digits(bed_amount(kg_per_ha, *bed_, units_));
  }

  [[nodiscard]] std::string with_range(double kg_per_ha, const catalogue::CauseText& words) const {
    const std::string middle = amount(kg_per_ha);
    if (middle == "0" || words.low == words.high) return middle;
    const double size = std::abs(kg_per_ha);
    const std::string full =
        fmt::format("{} ({}-{})", middle, amount(size * words.low), amount(size * words.high));
    if (full.size() < kCellColumns) return full;
    const auto tenths = [&](double value) {
      return std::round(10.0 * bed_amount(value, *bed_, units_)) / 10.0 + 0.0;
    };
    return fmt::format("{:.1f} ({:.1f}-{:.1f})", tenths(kg_per_ha), tenths(size * words.low),
                       tenths(size * words.high));
  }

  const garden::Bed* bed_;
  garden::UnitSystem units_;
  const Causes* causes_;
  std::vector<YearSum> years_;
};

std::vector<YearSum> years_asked(const ledger::BedAccount& account, std::optional<int> year) {
  std::vector<YearSum> years = sum_by_year(account);
  if (year) {
    std::erase_if(years, [&](const YearSum& one) { return one.year != *year; });
  }
  return years;
}

std::string heading(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                    const ledger::BedAccount& account) {
  const garden::Bed& bed = garden.bed(account.bed);
  const std::string soil = bed.soil.known() ? catalogue.soil(bed.soil).name : "";
  return fmt::format("Bed {}: {}{}{}, {:.1f} % organic matter, {} to {}\n",
                     diagnostic::printable(bed.name), area_text(bed.area.value(), garden.units),
                     soil.empty() ? "" : ", ", diagnostic::printable(soil), bed.organic_matter_pct,
                     calendar::text(account.from), calendar::text(account.until));
}

std::string nitrogen_text(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                          const ledger::BedAccount& account, const LedgerTextOptions& options) {
  const garden::Bed& bed = garden.bed(account.bed);
  const std::vector<YearSum> years = years_asked(account, options.year);
  const int room = std::max(options.width, 0) - static_cast<int>(kLabelColumns);
  const std::size_t columns =
      static_cast<std::size_t>(std::max(1, room / static_cast<int>(kCellColumns)));
  std::string out =
      fmt::format("\nNitrogen, {} for the whole bed (published range)\n", bed_unit(garden.units));
  for (std::size_t i = 0; i < years.size(); i += columns) {
    if (i > 0) out += '\n';
    const std::size_t past = std::min(years.size(), i + columns);
    out += YearTable(bed, garden.units, catalogue.coefficients.nitrogen.causes,
                     {years.begin() + static_cast<std::ptrdiff_t>(i),
                      years.begin() + static_cast<std::ptrdiff_t>(past)})
               .text();
  }
  const auto grams = [&](double kg_per_ha) {
    return two_digits(bed_amount(kg_per_ha, bed, garden.units));
  };
  out +=
      fmt::format("Over all years: short {0} {2}; surplus at the start of a winter {1} {2}\n",
                  grams(account.short_kg_ha), grams(account.surplus_kg_ha), bed_unit(garden.units));
  return out;
}

/// Posting by posting.
std::string posting_lines(const catalogue::Catalogue& catalogue, const ledger::BedAccount& account,
                          std::optional<int> year) {
  std::string out = fmt::format("\nPostings, kg N/ha\n{:9} {:8} {:>9}  {}\n", "week", "pool",
                                "amount", "cause [source]");
  for (const nitrogen::Posting& posting : account.postings) {
    if (year && calendar::iso(posting.week).year != *year) continue;
    const catalogue::CauseText& cause =
        catalogue.coefficients.nitrogen.causes[static_cast<std::size_t>(posting.cause)];
    std::string words(cause.words);
    if (posting.crop.known()) {
      words += ": " + diagnostic::printable(catalogue.crop(posting.crop).name);
    }
    const double rounded = std::round(posting.kg_per_ha * 1000.0) / 1000.0 + 0.0;
    out += fmt::format("{:9} {:8} {:>9.3f}  {} [{}]\n", calendar::text(posting.week),
                       nitrogen::kPoolNames[static_cast<std::size_t>(posting.pool)], rounded, words,
                       cause.source);
  }
  return out;
}

}  // namespace

std::string ledger_text(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                        const ledger::BedAccount& account, const LedgerTextOptions& options) {
  std::string out;
  for (const std::string& line :
       diagnostic::fold(heading(garden, catalogue, account), std::max(40, options.width))) {
    out += line;
    if (out.back() != '\n') out += '\n';
  }
  out += nitrogen_text(garden, catalogue, account, options);
  if (options.lines) out += posting_lines(catalogue, account, options.year);
  out += disease_text(catalogue, account, options);
  return out;
}

}  // namespace aftercrop::emit
