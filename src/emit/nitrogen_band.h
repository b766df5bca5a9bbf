#pragma once

#include <vector>

#include "emit/ledger_years.h"

namespace aftercrop::emit {

/// What is ready for crops at the start of a week, kg N/ha, with its span.
struct ReadySpan {
  calendar::Week week;
  Span amount;
};

/// Mineral nitrogen at the opening and after each week with a posting. The span starts anew at a
/// soil test. Every posting adds the published range of its cause (NitrogenCoefficients::causes);
/// one cause errs the same way all along, different causes independently. Of what may be more or
/// less the same share is lost as of the rest. A stand that is short takes up what may be more and
/// leaves nothing that could be less; a legume fixes so much less where there is more.
[[nodiscard]] std::vector<ReadySpan> ready_spans(const ledger::BedAccount& account,
                                                 const catalogue::NitrogenCoefficients& k);

}  // namespace aftercrop::emit
