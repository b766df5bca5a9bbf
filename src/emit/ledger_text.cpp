#include "aftercrop/emit/ledger_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "aftercrop/diagnostic/render.h"
#include "diagnostic/text.h"
#include "emit/amounts.h"
#include "emit/ledger_screen.h"

namespace aftercrop::emit {
namespace {

constexpr int kLeastWidth = 20;

std::string heading(const ScreenInput& input) {
  const garden::Bed& bed = input.bed();
  const std::string soil = bed.soil.known() ? input.catalogue.soil(bed.soil).name : "";
  std::string text =
      fmt::format("Bed {}: {}{}{}, {:.1f} % organic matter, pH {:.1f}, {}",
                  diagnostic::printable(bed.name), area_text(bed.area.value(), input.garden.units),
                  soil.empty() ? "" : ", ", diagnostic::printable(soil), bed.organic_matter_pct,
                  bed.ph, bed.watered ? "irrigated" : "not irrigated");
  if (bed.shelter == garden::Shelter::Fleece) text += ", under fleece";
  if (bed.shelter == garden::Shelter::Tunnel) text += ", in a tunnel";
  if (bed.poorly_drained) text += ", poorly drained";
  text += fmt::format("; {} to {}", calendar::text(input.account.from),
                      calendar::text(input.account.until));
  return folded(text, input.width, 2);
}

/// One line a year: start, what came in and went out with ranges, end, short, left before winter.
std::string overview(const ScreenInput& input, const std::vector<YearSum>& years) {
  const auto& k = input.nitrogen();
  const auto range = [&](const Span& span) {
    if (span.low == span.high || input.width < 56) return input.amount(span.middle);
    return fmt::format("{} ({}-{})", input.amount(span.middle), input.amount(span.low),
                       input.amount(span.high));
  };
  std::string out = fmt::format("nitrogen, {} for the whole bed\n", bed_unit(input.garden.units));
  const auto row = [&](const std::string& year, const std::string& start, const std::string& in,
                       const std::string& gone, const std::string& end) {
    const int columns = input.width < 56 ? 8 : input.width < 80 ? 17 : 21;
    return fmt::format("{:<4} {:>6} {:>{}} {:>{}} {:>6}", year, start, in, columns, gone, columns,
                       end);
  };
  const bool wide = input.width >= 72;
  out += row("year", "start", "came in", "went out", "end");
  out += wide ? fmt::format(" {:>6} {:>8}\n", "short", "winter*") : "\n";
  for (const YearSum& year : years) {
    out +=
        row(fmt::format("{}", year.year), input.amount(year.opening.mineral),
            range(came_in(year, k)), range(went_out(year, k)), input.amount(year.closing.mineral));
    if (!wide) {
      out += '\n';
      continue;
    }
    out += fmt::format(" {:>6} {:>8}\n", input.amount(year.short_kg_ha),
                       year.before_wet ? input.amount(*year.before_wet) : "");
  }
  if (wide) out += "* ready for crops as the wet or freezing season begins\n";
  return out + folded(
                   "Ranges are those of the sources. Postings of one cause vary together; "
                   "different causes are taken as independent, so that half-widths add as squares.",
                   input.width, 2);
}

/// What is still wider than a very narrow terminal is broken.
std::string fitted(const std::string& text, int width) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::string line = text.substr(at, end - at);
    out += diagnostic::columns_of(line) <= width ? line + '\n' : folded(line, width, 2);
    at = end + 1;
  }
  return out;
}

}  // namespace

std::string ledger_text(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                        const ledger::BedAccount& account, const LedgerTextOptions& options) {
  const ScreenInput input{garden, catalogue, account, std::max(kLeastWidth, options.width)};
  std::vector<YearSum> years = sum_by_year(account);
  if (options.year) {
    std::erase_if(years, [&](const YearSum& one) { return one.year != *options.year; });
  }
  std::string out = heading(input);
  if (years.size() != 1) out += '\n' + overview(input, years);
  for (const YearSum& year : years) {
    out += '\n' + year_screen(input, year);
    out += year_diseases(input, year);
    if (options.lines) out += year_lines(input, year);
  }
  out += bed_diseases(input, years);
  return fitted(out, input.width);
}

}  // namespace aftercrop::emit
