#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/r_c_shortest_paths.hpp>

#include "sequencer/pricing.h"
#include "support/tiny_world.h"

// The pricing of a bed by a label setter that is not ours: Boost's, on a graph built here, with the
// bed's true state as its resource. Only equal states are compared, so nothing good is thrown away.
using namespace aftercrop;

namespace {

constexpr double kSame = 1e-6;
constexpr int kEnough = 4000;  // labels a week: none has to be dropped

struct Node {
  int number = 0;
};
struct Step {
  int number = 0;
  calendar::Week to;
  int stand = -1;  ///< -1 = idle; -2 = the end of a path
};
using WeekGraph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, Node, Step>;

struct Lived {
  double cost = 0.0;
  ledger::BedState state;
  friend bool operator==(const Lived& a, const Lived& b) {
    return a.cost == b.cost && a.state == b.state;
  }
  friend bool operator<(const Lived& a, const Lived& b) {
    return a.state.week != b.state.week ? a.state.week < b.state.week : a.cost < b.cost;
  }
};

struct NoWorse {
  bool operator()(const Lived& a, const Lived& b) const {
    return a.cost <= b.cost && a.state == b.state;
  }
};

class Extend {
 public:
  Extend(const sequencer::BedClass& beds, const sequencer::Objective& objective,
         const sequencer::Prices& prices)
      : beds_(&beds), objective_(&objective), prices_(&prices) {}

  bool operator()(const WeekGraph& graph, Lived& next, const Lived& old,
                  boost::graph_traits<WeekGraph>::edge_descriptor edge) const {
    const Step& step = graph[edge];
    next = old;
    if (step.stand == -2) return true;
    sequencer::Value value;
    if (step.stand == -1) {
      objective_->charge_flows(beds_->ledger->idle(next.state, step.to), beds_->area_m2, value);
    } else if (!live(beds_->choices()[static_cast<std::size_t>(step.stand)], next.state, value)) {
      return false;
    }
    next.cost -= value.total();
    return true;
  }

 private:
  bool live(const sequencer::Choice& choice, ledger::BedState& state,
            sequencer::Value& value) const {
    rules::Breaches breaches;
    const rules::Occasion occasion{*beds_->ledger, state, choice.stand, beds_->clubroot_seen};
    rules::judge_before(occasion, breaches);
    rules::judge_stand(occasion, breaches);
    if (!objective_->charge_breaches(breaches, choice.worth, value)) return false;
    objective_->charge_disease(state, choice.stand, choice.worth, value);
    objective_->charge_flows(beds_->ledger->advance(state, choice.stand), beds_->area_m2, value);
    for (const auto& [row, m2] : objective_->supply_of(choice.stand.spec, beds_->area_m2)) {
      value.wants += m2 * prices_->supply[static_cast<std::size_t>(row)];
    }
    return true;
  }

  const sequencer::BedClass* beds_;
  const sequencer::Objective* objective_;
  const sequencer::Prices* prices_;
};

/// A node a week, and one where all paths end.
WeekGraph graph_of(const sequencer::BedClass& beds) {
  const calendar::Week first = beds.graph().weeks().first;
  const int weeks = (beds.graph().last() - first).count() + 1;
  WeekGraph graph(static_cast<std::size_t>(weeks) + 1);
  for (int node = 0; node <= weeks; ++node) graph[static_cast<std::size_t>(node)].number = node;
  int count = 0;
  const auto join = [&](int from, int to, calendar::Week week, int stand) {
    boost::add_edge(static_cast<std::size_t>(from), static_cast<std::size_t>(to),
                    Step{count++, week, stand}, graph);
  };
  for (const graph::Arc& arc : beds.graph().arcs()) {
    join((arc.from - first).count(), (arc.to - first).count(), arc.to, arc.stand);
  }
  for (int node = beds.graph().weeks().length().count(); node < weeks; ++node) {
    join(node, weeks, first, -2);
  }
  return graph;
}

double best_by_boost(const sequencer::BedClass& beds, const sequencer::Objective& objective,
                     const sequencer::Prices& prices) {
  const WeekGraph graph = graph_of(beds);
  std::vector<std::vector<boost::graph_traits<WeekGraph>::edge_descriptor>> paths;
  std::vector<Lived> ends;
  Lived start;
  start.state = beds.start;
  boost::r_c_shortest_paths(graph, boost::get(&Node::number, graph),
                            boost::get(&Step::number, graph), boost::vertex(0, graph),
                            boost::vertex(boost::num_vertices(graph) - 1, graph), paths, ends,
                            start, Extend(beds, objective, prices), NoWorse());
  double least = 1e300;
  for (const Lived& end : ends) least = std::min(least, end.cost);
  return -least;
}

}  // namespace

TEST_CASE("pricing: Boost's label setter finds the same best path at the same prices") {
  constexpr unsigned kGardens = 40;
  int with_choice = 0;
  for (unsigned seed = 1; seed <= kGardens; ++seed) {
    CAPTURE(seed);
    const support::TinyWorld world = support::read_tiny(seed);
    const sequencer::Objective objective(world.loaded.garden, world.loaded.catalogue);
    const auto classes = sequencer::bed_classes(world.loaded.garden, world.loaded.catalogue,
                                                world.climates, objective);
    sequencer::Pricing pricing(classes, objective);
    std::mt19937 random(seed);
    sequencer::Prices prices;
    for (std::size_t row = 0; row < objective.supplies().size(); ++row) {
      prices.supply.push_back(static_cast<double>(random() % 3000) / 100.0);
    }
    for (std::size_t g = 0; g < classes.size(); ++g) {
      const double boost = best_by_boost(classes[g], objective, prices);
      sequencer::Effort effort;
      effort.width = kEnough;
      const sequencer::Found found = pricing.search(g, prices, effort);
      REQUIRE(!found.paths.empty());
      const double scale = std::max(1.0, std::abs(boost));
      CHECK(std::abs(found.paths.front().priced - boost) <= kSame * scale);
      CHECK(found.bound >= boost - kSame * scale);
      with_choice += found.paths.front().choices.empty() ? 0 : 1;
    }
  }
  CHECK(with_choice >= static_cast<int>(kGardens));  // it is not idleness that they agree on
}
