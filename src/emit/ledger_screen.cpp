#include "emit/ledger_screen.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "aftercrop/diagnostic/render.h"
#include "diagnostic/text.h"
#include "emit/amounts.h"
#include "emit/feeding.h"

namespace aftercrop::emit {
namespace {

using nitrogen::Cause;

constexpr int kLabelColumns = 31;
constexpr int kNarrowLabel = 22;
constexpr int kNarrow = 64;      // below it labels are short
constexpr int kVeryNarrow = 52;  // below it ranges are left out
constexpr int kMostBar = 48;

/// A line of the account: several causes that a grower would call one thing.
struct Line {
  const char* label;
  std::vector<Cause> causes;
};

const std::vector<Line>& lines() {
  static const std::vector<Line> kLines = {
      {"soil organic matter", {Cause::SoilSupply, Cause::LeyEffect}},
      {"residues, mulch and roots",
       {Cause::ResidueRelease, Cause::MulchRelease, Cause::SlowRelease, Cause::WinterLoss}},
      {"amendments, at once", {Cause::Amendment}},
      {"rain and dust", {Cause::Deposition}},
      {"crops took up", {Cause::Uptake}},
      {"kept by soil life", {Cause::SoilLife}},
      {"tied up by residues", {Cause::TieUp}},
      {"washed out", {Cause::Leaching}},
      {"lost as gas", {Cause::GasLoss, Cause::Ammonia}}};
  return kLines;
}

class Screen {
 public:
  Screen(const ScreenInput& input, const YearSum& year)
      : in_(input), year_(year), label_(input.width < kNarrow ? kNarrowLabel : kLabelColumns) {
    for (const Line& line : lines()) {
      largest_ = std::max(largest_, std::abs(moved(line.causes)));
    }
  }

  std::string text() const {
    std::string out = heading();
    out += fmt::format(
        "{}{:>9}   low to high\n",
        padded(fmt::format("nitrogen, {} for the whole bed", bed_unit(in_.garden.units)), label_),
        "middle", in_.width < kVeryNarrow ? "" : "   low to high");
    out += plain("ready for crops at the start", year_.opening.mineral);
    out += side(1.0, "= came in", came_in(year_, in_.nitrogen()));
    out += side(-1.0, "= went out", went_out(year_, in_.nitrogen()));
    out += tests();
    out += plain("ready for crops at the end", year_.closing.mineral);
    out += besides();
    return out + doses();
  }

 private:
  [[nodiscard]] double moved(const std::vector<Cause>& causes) const {
    double sum = 0.0;
    for (const Cause cause : causes) {
      const auto found = year_.mineral.find(cause);
      if (found != year_.mineral.end()) sum += found->second;
    }
    return sum;
  }

  [[nodiscard]] std::string heading() const {
    std::string stood;
    for (const ledger::StandLine* line : year_.stands) {
      const catalogue::Crop& crop = in_.catalogue.crop(line->stand.spec.crop);
      const calendar::WeekSpan weeks = line->stand.spec.weeks;
      stood += (stood.empty() ? "" : ", ") +
               fmt::format("{} {} to {} ({})", crop.name, calendar::text(weeks.first),
                           calendar::text(weeks.past - calendar::Weeks(1)),
                           catalogue::name(line->stand.spec.ending));
    }
    const std::string bed = diagnostic::printable(in_.bed().name);
    if (stood.empty()) stood = "no stand on record";
    return folded(fmt::format("{} in {}: {}", bed, year_.year, diagnostic::printable(stood)),
                  in_.width, 2);
  }

  [[nodiscard]] std::string plain(const char* label, double kg_per_ha) const {
    return padded(label, label_) + fmt::format("{:>9}\n", in_.amount(kg_per_ha));
  }

  [[nodiscard]] std::string bar(double kg_per_ha, char mark) const {
    const int room = std::min(kMostBar, in_.width - label_ - 9 - 21);
    if (room < 5 || largest_ <= 0.0) return "";
    const int filled = static_cast<int>(std::lround(room * std::abs(kg_per_ha) / largest_));
    return std::string(static_cast<std::size_t>(std::clamp(filled, 0, room)), mark);
  }

  /// The lines that moved in one direction, and what they add up to.
  [[nodiscard]] std::string side(double sign, const char* label, const Span& total) const {
    std::string out;
    for (const Line& line : lines()) {
      const double amount = moved(line.causes);
      if (amount * sign <= 0.0) continue;
      std::vector<Span> spans;
      for (const Cause cause : line.causes) spans.push_back(span_of(year_, cause, in_.nitrogen()));
      const char mark = sign > 0.0 ? '+' : '-';
      std::string row = padded(fmt::format("  {} {}", mark, line.label), label_) +
                        in_.range(independent_sum(spans));
      row = padded(row, label_ + 9 + 20) + bar(amount, mark);
      while (!row.empty() && row.back() == ' ') row.pop_back();
      out += row + '\n';
    }
    return out + padded(label, label_) + in_.range(total) + '\n';
  }

  [[nodiscard]] std::string tests() const {
    std::string out;
    for (const ledger::TestLine& test : in_.account.tests) {
      if (calendar::iso(test.week).year != year_.year) continue;
      out += folded(test.disease.known() ? count_text(test) : nitrate_text(test), in_.width, 4);
    }
    return out;
  }

  [[nodiscard]] std::string nitrate_text(const ledger::TestLine& test) const {
    const std::string unit = bed_unit(in_.garden.units);
    const auto amount = [&](double kg_per_ha) { return in_.amount(kg_per_ha) + ' ' + unit; };
    const std::string verdict =
        test.agrees()
            ? std::string("they agree")
            : fmt::format("{} {}, beyond the {} that both allow",
                          amount(std::abs(test.difference())),
                          test.difference() > 0.0 ? "more" : "less", amount(test.tolerance));
    const std::string text = fmt::format(
        "soil test {} ({}): the ledger expected {}, the test says {}: {}; the account goes on from "
        "the test",
        test.test->date.text(), diagnostic::printable(test.test->typed), amount(test.expected),
        amount(test.computed), verdict);
    if (!test.wrong_unit()) return text;
    return text + fmt::format(". Read as {} it would be {}, which fits: was that meant?",
                              test.test->typed_as_ppm
                                  ? fmt::format("{:g} kg/ha", test.test->typed_number)
                                  : fmt::format("{:g} ppm", test.test->typed_number),
                              amount(test.other_reading));
  }

  [[nodiscard]] std::string count_text(const ledger::TestLine& test) const {
    const catalogue::Pathogen& pathogen = in_.catalogue.pathogen(test.disease);
    return fmt::format(
        "soil test {} of {}: the ledger expected {} of the threshold, the test says {}: {}",
        test.test->date.text(), diagnostic::printable(pathogen.name), two_digits(test.expected),
        two_digits(test.computed), test.agrees() ? "they agree" : "the account goes on from it");
  }

  [[nodiscard]] std::string besides() const {
    std::string out = plain("held in residues and mulch",
                            year_.closing.fast + year_.closing.mulch + year_.closing.slow);
    if (year_.fixed > 0.0) out += plain("legumes took from the air", year_.fixed);
    if (year_.removed > 0.0) out += plain("carried off the bed", year_.removed);
    if (year_.short_kg_ha > 0.0) {
      out += padded("short for what stood here", label_) +
             in_.range(short_of(year_, in_.nitrogen())) + '\n';
    }
    if (year_.before_wet) {
      const double kept = in_.nitrogen().surplus_kept;
      std::string row = plain("left before the wet season", *year_.before_wet);
      row.pop_back();
      if (in_.width < kNarrow) return out + row + '\n';
      out +=
          row + fmt::format("   {} {} may be left\n", in_.amount(kept), bed_unit(in_.garden.units));
    }
    return out;
  }

  [[nodiscard]] std::string doses() const {
    std::string out;
    std::set<std::string> cautions;
    const calendar::Date since = calendar::monday(in_.garden.seasons.first);
    for (const Feeding& feeding : feedings(in_.garden, in_.catalogue, in_.account, since)) {
      if (calendar::iso(calendar::week_of(feeding.planting->from)).year != year_.year) continue;
      out += folded(feeding_text(feeding, in_.garden, in_.catalogue), in_.width, 4);
      cautions.insert(feeding_caution(feeding, in_.catalogue, in_.garden.units));
    }
    for (const std::string& caution : cautions) {
      out += folded("caution: " + diagnostic::printable(caution), in_.width, 4);
    }
    return out;
  }

  const ScreenInput& in_;
  const YearSum& year_;
  int label_;
  double largest_ = 0.0;
};

}  // namespace

std::string ScreenInput::amount(double kg_per_ha) const {
  return two_digits(bed_amount(kg_per_ha, bed(), garden.units));
}

std::string ScreenInput::range(const Span& span) const {
  const std::string middle = fmt::format("{:>9}", amount(span.middle));
  if (span.low == span.high || width < kVeryNarrow) return middle;
  return middle + fmt::format("   {} to {}", amount(span.low), amount(span.high));
}

std::string folded(const std::string& text, int width, int indent, int lead) {
  std::string out;
  for (const std::string& line : diagnostic::fold(text, width - indent)) {
    out += std::string(static_cast<std::size_t>(out.empty() ? lead : indent), ' ');
    // A word that is longer than the line is cut into pieces.
    std::string rest = line;
    while (diagnostic::columns_of(rest) > width - indent) {
      const std::string piece = padded(rest, width - indent);
      out += piece + '\n' + std::string(static_cast<std::size_t>(indent), ' ');
      rest.erase(0, piece.find_last_not_of(' ') + 1);
    }
    out += rest + '\n';
  }
  return out;
}

std::string padded(const std::string& text, int columns) {
  std::string out;
  int used = 0;
  for (std::size_t at = 0; at < text.size();) {
    const diagnostic::Character next = diagnostic::character_at(text, at);
    const int wide = diagnostic::columns_of(next.code);
    if (used + wide > columns) break;
    out.append(text, at, next.bytes);
    used += wide;
    at += next.bytes;
  }
  return out + std::string(static_cast<std::size_t>(columns - used), ' ');
}

std::string year_screen(const ScreenInput& input, const YearSum& year) {
  return Screen(input, year).text();
}

}  // namespace aftercrop::emit
