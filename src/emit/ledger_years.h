#pragma once

#include <array>
#include <map>
#include <vector>

#include "aftercrop/ledger/account.h"

// A bed's nitrogen account summed up by ISO year.
namespace aftercrop::emit {

struct YearSum {
  int year = 0;
  nitrogen::Pools opening;
  nitrogen::Pools closing;
  std::map<nitrogen::Cause, double> mineral;  ///< into (+) and out of (-) what crops can take up
  double fixed = 0.0;                         ///< from the air straight into the crop
  double bought = 0.0;                        ///< dose that the plan asks for
  double removed = 0.0;                       ///< with harvests and plants taken off
};

/// One entry a year that has postings, in order. Opening and closing of all years join up.
[[nodiscard]] std::vector<YearSum> sum_by_year(const ledger::BedAccount& account);

}  // namespace aftercrop::emit
