#pragma once

#include <memory>
#include <vector>

#include "aftercrop/calendar/week.h"

namespace aftercrop::graph {

/// An arc of the bed-by-time graph: one planting, or one week without a crop.
struct Arc {
  calendar::Week from;
  calendar::Week to;
  int stand = -1;      ///< place of the stand; -1 = an idle week
  bool fixed = false;  ///< decided already: it may lie on taken weeks
};

/// A bed's future: a node a week, an arc a planting or an idle week. A path through it is what
/// the bed could do. Built once, never changed.
class BedTimeGraph {
 public:
  /// `weeks` = first node and the node past which nothing begins; arcs may end up to `last`.
  BedTimeGraph(calendar::WeekSpan weeks, calendar::Week last, std::vector<Arc> plantings,
               const std::vector<calendar::WeekSpan>& taken);
  ~BedTimeGraph();
  BedTimeGraph(BedTimeGraph&&) noexcept;
  BedTimeGraph& operator=(BedTimeGraph&&) noexcept;

  [[nodiscard]] const std::vector<Arc>& arcs() const { return arcs_; }
  /// Places of the arcs that leave a week: [first, past) into `arcs()`.
  [[nodiscard]] std::pair<std::size_t, std::size_t> leaving(calendar::Week week) const;
  [[nodiscard]] calendar::WeekSpan weeks() const { return weeks_; }
  [[nodiscard]] calendar::Week last() const { return last_; }

 private:
  struct Graph;
  calendar::WeekSpan weeks_;
  calendar::Week last_;
  std::vector<Arc> arcs_;
  std::unique_ptr<Graph> graph_;
};

}  // namespace aftercrop::graph
