#pragma once

#include <array>
#include <map>
#include <optional>
#include <vector>

#include "aftercrop/catalogue/coefficients.h"
#include "aftercrop/ledger/account.h"

// A bed's accounts summed up by ISO year.
namespace aftercrop::emit {

/// An amount with the span that its sources give, low <= middle <= high.
struct Span {
  double middle = 0.0;
  double low = 0.0;
  double high = 0.0;
};

/// The sum of amounts that vary independently: half-widths add as squares, each side by itself.
[[nodiscard]] Span independent_sum(const std::vector<Span>& spans);

struct YearSum {
  int year = 0;
  calendar::Week first;  ///< with a posting
  calendar::Week past;
  nitrogen::Pools opening;
  nitrogen::Pools closing;
  std::map<nitrogen::Cause, double> mineral;     ///< into (+) and out of (-) what crops can take up
  double fixed = 0.0;                            ///< from the air straight into the crop
  double bought = 0.0;                           ///< dose that the plan asks for
  double short_kg_ha = 0.0;                      ///< need of food crops that nothing covered
  double removed = 0.0;                          ///< with harvests and plants taken off
  std::optional<double> before_wet;              ///< `mineral` as the wet or freezing season begins
  std::vector<const ledger::StandLine*> stands;  ///< in the bed in this year
  std::vector<double> load_opening;              ///< central, one a tracked pathogen
  std::vector<double> load_closing;
  std::vector<std::optional<Span>> load_spans;  ///< of the last change in the year, where known
};

/// One entry a year that has postings, in order. Opening and closing of all years join up.
[[nodiscard]] std::vector<YearSum> sum_by_year(const ledger::BedAccount& account);

/// What a cause moved in a year, as its size with the range of its source.
[[nodiscard]] Span span_of(const YearSum& year, nitrogen::Cause cause,
                           const catalogue::NitrogenCoefficients& k);

/// All that came into `mineral` in a year, or all that went out of it, of different causes.
[[nodiscard]] Span came_in(const YearSum& year, const catalogue::NitrogenCoefficients& k);
[[nodiscard]] Span went_out(const YearSum& year, const catalogue::NitrogenCoefficients& k);

/// What was short, and how far that is sure: it moves with all that came in and all that was asked.
[[nodiscard]] Span short_of(const YearSum& year, const catalogue::NitrogenCoefficients& k);

}  // namespace aftercrop::emit
