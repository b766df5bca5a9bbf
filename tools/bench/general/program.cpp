#include "bench/general/program.h"

#include <algorithm>

#include <fmt/format.h>

namespace aftercrop::bench {

int Program::column(double profit, double upper, bool whole) {
  profits_.push_back(profit);
  lowers_.push_back(0.0);
  uppers_.push_back(upper);
  whole_.push_back(whole ? 1 : 0);
  entries_.emplace_back();
  return static_cast<int>(profits_.size()) - 1;
}

int Program::row(Sense sense, double limit) {
  senses_.push_back(sense);
  limits_.push_back(limit);
  return static_cast<int>(limits_.size()) - 1;
}

void Program::add(int row, int column, double coefficient) {
  entries_[static_cast<std::size_t>(column)].emplace_back(row, coefficient);
}

void Program::fix(int column, double value) {
  lowers_[static_cast<std::size_t>(column)] = value;
  uppers_[static_cast<std::size_t>(column)] = value;
}

std::size_t Program::whole_columns() const {
  return static_cast<std::size_t>(std::count(whole_.begin(), whole_.end(), 1));
}

std::size_t Program::entries() const {
  std::size_t count = 0;
  for (const auto& list : entries_) count += list.size();
  return count;
}

std::string Program::mps() const {
  fmt::memory_buffer out;
  const auto to = std::back_inserter(out);
  fmt::format_to(to, "NAME garden FREE\nROWS\n N cost\n");
  for (std::size_t i = 0; i < limits_.size(); ++i) {
    const char sense = senses_[i] == Sense::AtMost ? 'L' : senses_[i] == Sense::AtLeast ? 'G' : 'E';
    fmt::format_to(to, " {} r{}\n", sense, i);
  }
  fmt::format_to(to, "COLUMNS\n");
  bool inside = false;
  const auto marker = [&](bool whole) {
    if (whole == inside) return;
    inside = whole;
    fmt::format_to(to, " M 'MARKER' '{}'\n", whole ? "INTORG" : "INTEND");
  };
  for (std::size_t i = 0; i < profits_.size(); ++i) {
    marker(whole_[i] != 0);
    fmt::format_to(to, " c{} cost {:.12g}\n", i, 0.0 - profits_[i]);
    for (const auto& [row, coefficient] : entries_[i]) {
      fmt::format_to(to, " c{} r{} {:.12g}\n", i, row, coefficient);
    }
  }
  marker(false);
  fmt::format_to(to, "RHS\n");
  for (std::size_t i = 0; i < limits_.size(); ++i) {
    if (limits_[i] != 0.0) fmt::format_to(to, " b r{} {:.12g}\n", i, limits_[i]);
  }
  fmt::format_to(to, "BOUNDS\n");
  for (std::size_t i = 0; i < profits_.size(); ++i) {
    if (lowers_[i] == uppers_[i]) {
      fmt::format_to(to, " FX d c{} {:.12g}\n", i, lowers_[i]);
    } else if (uppers_[i] < kNoLimit) {
      fmt::format_to(to, " UP d c{} {:.12g}\n", i, uppers_[i]);
    }
  }
  fmt::format_to(to, "ENDATA\n");
  return fmt::to_string(out);
}

}  // namespace aftercrop::bench
