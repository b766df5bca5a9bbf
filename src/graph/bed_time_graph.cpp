#include "aftercrop/graph/bed_time_graph.h"

#include <algorithm>
#include <boost/graph/compressed_sparse_row_graph.hpp>
#include <iterator>
#include <utility>

namespace aftercrop::graph {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;

/// Nodes are weeks, edges the arcs in their order.
using TimeGraph = boost::compressed_sparse_row_graph<boost::directedS>;

bool touches(const Arc& arc, const std::vector<WeekSpan>& taken) {
  return std::any_of(taken.begin(), taken.end(), [&](const WeekSpan& span) {
    return arc.from < span.past && span.first < arc.to;
  });
}

}  // namespace

struct BedTimeGraph::Graph {
  TimeGraph weeks;
};

BedTimeGraph::~BedTimeGraph() = default;
BedTimeGraph::BedTimeGraph(BedTimeGraph&&) noexcept = default;
BedTimeGraph& BedTimeGraph::operator=(BedTimeGraph&&) noexcept = default;

BedTimeGraph::BedTimeGraph(WeekSpan weeks, Week last, std::vector<Arc> plantings,
                           const std::vector<WeekSpan>& taken)
    : weeks_(weeks), last_(last), arcs_(std::move(plantings)), graph_(std::make_unique<Graph>()) {
  std::erase_if(arcs_, [&](const Arc& arc) {
    return arc.from < weeks_.first || arc.from >= weeks_.past || arc.to > last_ ||
           (!arc.fixed && touches(arc, taken));
  });
  for (Week week = weeks_.first; week < weeks_.past; ++week) {
    const bool in_stand = std::any_of(taken.begin(), taken.end(),
                                      [&](const WeekSpan& span) { return span.contains(week); });
    if (!in_stand) arcs_.push_back({week, week + Weeks(1), -1});
  }
  std::stable_sort(arcs_.begin(), arcs_.end(), [](const Arc& a, const Arc& b) {
    return std::pair(a.from, a.stand) < std::pair(b.from, b.stand);
  });
  const auto nodes = static_cast<std::size_t>((last_ - weeks_.first).count()) + 1;
  std::vector<std::pair<std::size_t, std::size_t>> ends;
  for (const Arc& arc : arcs_) {
    ends.emplace_back((arc.from - weeks_.first).count(), (arc.to - weeks_.first).count());
  }
  graph_->weeks = TimeGraph(boost::edges_are_sorted, ends.begin(), ends.end(), nodes);
}

std::pair<std::size_t, std::size_t> BedTimeGraph::leaving(Week week) const {
  const int node = (week - weeks_.first).count();
  if (node < 0 || week >= weeks_.past) return {0, 0};
  const auto [edge, past] = boost::out_edges(static_cast<std::size_t>(node), graph_->weeks);
  const auto first = boost::get(boost::edge_index, graph_->weeks, *edge);
  return {first, first + static_cast<std::size_t>(std::distance(edge, past))};
}

}  // namespace aftercrop::graph
