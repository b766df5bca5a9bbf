#pragma once

#include <string>
#include <vector>

#include "aftercrop/emit/ledger_text.h"
#include "emit/ledger_years.h"

namespace aftercrop::emit {

/// What a screen of the account is about; all references must outlive it.
struct ScreenInput {
  const garden::Garden& garden;
  const catalogue::Catalogue& catalogue;
  const ledger::BedAccount& account;
  int width = 80;  ///< columns

  [[nodiscard]] const garden::Bed& bed() const { return garden.bed(account.bed); }
  [[nodiscard]] const catalogue::NitrogenCoefficients& nitrogen() const {
    return catalogue.coefficients.nitrogen;
  }
  /// An amount for the whole bed in the garden's unit, two digits.
  [[nodiscard]] std::string amount(double kg_per_ha) const;
  /// A size with its range, "1.0   0.51 to 2.0", in fixed columns.
  [[nodiscard]] std::string range(const Span& span) const;
};

/// Text in lines of at most `width` columns, the first indented by `lead`, the others by `indent`.
[[nodiscard]] std::string folded(const std::string& text, int width, int indent, int lead = 0);

/// `text` and blanks, or as much of it as `columns` take.
[[nodiscard]] std::string padded(const std::string& text, int columns);

/// One year of a bed: its stands, its nitrogen, soil tests, doses.
[[nodiscard]] std::string year_screen(const ScreenInput& input, const YearSum& year);

/// The loads of disease of that year against their thresholds.
[[nodiscard]] std::string year_diseases(const ScreenInput& input, const YearSum& year);

/// Once a bed: what is published of the diseases that mattered in one of `years`, and the others by
/// name.
[[nodiscard]] std::string bed_diseases(const ScreenInput& input, const std::vector<YearSum>& years);

/// Every posting and every change of a load of that year, with range and source.
[[nodiscard]] std::string year_lines(const ScreenInput& input, const YearSum& year);

}  // namespace aftercrop::emit
