#include "aftercrop/graph/bed_time_graph.h"

#include <algorithm>
#include <boost/graph/compressed_sparse_row_graph.hpp>
#include <boost/graph/dag_shortest_paths.hpp>
#include <utility>

namespace aftercrop::graph {
namespace {

using calendar::Week;
using calendar::Weeks;
using calendar::WeekSpan;

struct Weighted {
  double cost = 0.0;
};
// Reversed: from the end of time back to the first week, so that one run prices every week.
using Reversed = boost::compressed_sparse_row_graph<boost::directedS, boost::no_property, Weighted>;

bool touches(const Arc& arc, const std::vector<WeekSpan>& taken) {
  return std::any_of(taken.begin(), taken.end(), [&](const WeekSpan& span) {
    return arc.from < span.past && span.first < arc.to;
  });
}

}  // namespace

struct BedTimeGraph::Graph {
  Reversed reversed;
  std::vector<std::size_t> arc_of_edge;
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
  first_.assign(nodes + 1, 0);
  for (const Arc& arc : arcs_) {
    ++first_[static_cast<std::size_t>((arc.from - weeks_.first).count()) + 1];
  }
  for (std::size_t node = 1; node <= nodes; ++node) first_[node] += first_[node - 1];

  // Edges of the reversed graph, sorted by their source. Node n is n weeks before `last`; the
  // end of every path is tied to node 0.
  struct Edge {
    std::size_t from;
    std::size_t to;
    std::size_t arc;
  };
  std::vector<Edge> edges;
  for (std::size_t i = 0; i < arcs_.size(); ++i) {
    edges.push_back({static_cast<std::size_t>((last_ - arcs_[i].to).count()),
                     static_cast<std::size_t>((last_ - arcs_[i].from).count()), i});
  }
  for (Week end = weeks_.past; end < last_; ++end) {
    edges.push_back({0, static_cast<std::size_t>((last_ - end).count()), arcs_.size()});
  }
  std::stable_sort(edges.begin(), edges.end(),
                   [](const Edge& a, const Edge& b) { return a.from < b.from; });
  std::vector<std::pair<std::size_t, std::size_t>> ends;
  for (const Edge& edge : edges) {
    ends.emplace_back(edge.from, edge.to);
    graph_->arc_of_edge.push_back(edge.arc);
  }
  graph_->reversed = Reversed(boost::edges_are_sorted, ends.begin(), ends.end(), nodes);
}

std::pair<std::size_t, std::size_t> BedTimeGraph::leaving(Week week) const {
  const int node = (week - weeks_.first).count();
  if (node < 0 || week >= weeks_.past) return {0, 0};
  const auto place = static_cast<std::size_t>(node);
  return {first_[place], first_[place + 1]};
}

std::vector<double> BedTimeGraph::greatest_from(const std::vector<double>& profit) const {
  Reversed& reversed = graph_->reversed;
  std::size_t edge = 0;
  for (auto [it, end] = boost::edges(reversed); it != end; ++it, ++edge) {
    const std::size_t arc = graph_->arc_of_edge[edge];
    reversed[*it].cost = arc < profit.size() ? -profit[arc] : 0.0;
  }
  const std::size_t nodes = boost::num_vertices(reversed);
  std::vector<double> distance(nodes);
  std::vector<std::size_t> before(nodes);
  boost::dag_shortest_paths(reversed, std::size_t{0},
                            boost::weight_map(boost::get(&Weighted::cost, reversed))
                                .distance_map(boost::make_iterator_property_map(
                                    distance.begin(), boost::get(boost::vertex_index, reversed)))
                                .predecessor_map(boost::make_iterator_property_map(
                                    before.begin(), boost::get(boost::vertex_index, reversed))));
  std::vector<double> greatest(nodes);
  for (std::size_t node = 0; node < nodes; ++node) greatest[node] = -distance[nodes - 1 - node];
  return greatest;
}

}  // namespace aftercrop::graph
