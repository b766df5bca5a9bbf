#pragma once

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <set>
#include <string>
#include <vector>

// Numbered worked checks as one table: each row a value of ours, what was published, how far apart
// they may be, and who published it. A row that is known to lie outside carries its reason; it has
// to lie outside, so that the list of misses stays true. The table prints `N of M within
// tolerance`: a number counts when all its rows do.
namespace aftercrop::support {

struct CheckRow {
  std::string id;   ///< "N18"
  char kind = 'A';  ///< A arithmetic or data; F form of ours; B, P, C behaviour against a source
  std::string source;
  std::string what;
  double got = 0.0;
  double low = 0.0;
  double high = 0.0;
  std::string miss;  ///< why it lies outside; empty = it should not

  [[nodiscard]] bool inside() const { return got >= low && got <= high; }
  [[nodiscard]] bool behaviour() const { return kind == 'B' || kind == 'P' || kind == 'C'; }
};

class CheckTable {
 public:
  explicit CheckTable(std::string name) : name_(std::move(name)) {}

  /// What the rows that follow are about.
  void about(const char* id, char kind, const char* source) {
    about_ = CheckRow();
    about_.id = id;
    about_.kind = kind;
    about_.source = source;
  }
  CheckTable& near(std::string what, double got, double expected, double tolerance) {
    return inside(std::move(what), got, expected - tolerance, expected + tolerance);
  }
  /// `share` of the expected value either way.
  CheckTable& within(std::string what, double got, double expected, double share) {
    return near(std::move(what), got, expected, share * std::abs(expected));
  }
  /// The same to the last digits that double arithmetic keeps.
  CheckTable& equal(std::string what, double got, double expected) {
    return near(std::move(what), got, expected, 1e-9 * std::max(1.0, std::abs(expected)));
  }
  CheckTable& inside(std::string what, double got, double low, double high) {
    CheckRow row = about_;
    row.what = std::move(what);
    row.got = got;
    row.low = low;
    row.high = high;
    rows_.push_back(std::move(row));
    return *this;
  }
  CheckTable& holds(std::string what, bool got) {
    return inside(std::move(what), got ? 1.0 : 0.0, 1.0, 1.0);
  }
  /// The last row is known to lie outside.
  void misses(const char* reason) { rows_.back().miss = reason; }
  /// A number whose rows cannot be worked out here, with the reason.
  void left_out(const char* id, char kind, const char* source, const char* reason) {
    about(id, kind, source);
    holds("worked out", false).misses(reason);
  }

  /// Prints the table's sum and its misses, and checks every row. Numbers run from `letter` 1 to
  /// `count`; `listed` is the text of the README, which has to name each miss; `least` is the share
  /// of the numbers, and of those of behaviour, that have to be met.
  void finish(char letter, int count, const std::string& listed, double least = 0.9) const {
    std::set<std::string> ids;
    std::set<std::string> outside;
    std::set<std::string> behaviour;
    for (const CheckRow& row : rows_) {
      ids.insert(row.id);
      if (!row.inside()) outside.insert(row.id);
      if (row.behaviour()) behaviour.insert(row.id);
    }
    for (int i = 1; i <= count; ++i) {
      CAPTURE(i);
      CHECK(ids.contains(fmt::format("{}{}", letter, i)));
    }
    const auto met = [&](const std::set<std::string>& of) {
      return std::count_if(of.begin(), of.end(),
                           [&](const auto& id) { return !outside.contains(id); });
    };
    fmt::print("{}: {} of {} within tolerance ({} rows); of behaviour {} of {}\n", name_, met(ids),
               ids.size(), rows_.size(), met(behaviour), behaviour.size());
    for (const CheckRow& row : rows_) report(row, listed);
    std::fflush(stdout);
    CHECK(static_cast<double>(met(ids)) >= least * static_cast<double>(ids.size()));
    CHECK(static_cast<double>(met(behaviour)) >= least * static_cast<double>(behaviour.size()));
  }

 private:
  static void report(const CheckRow& row, const std::string& listed) {
    const std::string line = fmt::format("{} {}: {:.6g}, published {:.6g} to {:.6g} ({})", row.id,
                                         row.what, row.got, row.low, row.high, row.source);
    CAPTURE(line);
    if (row.miss.empty()) {
      CHECK(row.inside());
      if (!row.inside()) fmt::print("  OUTSIDE {}\n", line);
      return;
    }
    fmt::print("  miss {}\n       because {}\n", line, row.miss);
    CHECK_FALSE(row.inside());  // no longer a miss: take it off the list
    CHECK(listed.find("| " + row.id + " |") != std::string::npos);
  }

  std::string name_;
  CheckRow about_;
  std::vector<CheckRow> rows_;
};

}  // namespace aftercrop::support
