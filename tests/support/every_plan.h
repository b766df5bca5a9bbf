#pragma once

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "support/every_path.h"

// The best plan of a garden of two beds, found by trying all pairs of paths.
namespace aftercrop::support {

class EveryPlan {
 public:
  EveryPlan(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
            const ledger::SiteClimates& climates)
      : garden_(&garden), catalogue_(&catalogue) {
    std::set<std::pair<catalogue::CropId, calendar::Week>> cells;
    for (const garden::Want& want : garden.wants) {
      for (calendar::Week week = want.window.first; week < want.window.past; ++week) {
        cells.emplace(want.crop, week);
      }
    }
    cells_.assign(cells.begin(), cells.end());
    for (std::size_t bed = 0; bed < 2; ++bed) {
      const EveryPath every(garden, catalogue, climates, {garden::BedId(bed), &cells_});
      tried += every.tried;
      for (std::size_t i = 0; i < kLifts; ++i) {
        for (const auto& [picked, path] : every.cheapest[i]) beds_[bed][i].push_back(rank(path, i));
        std::stable_sort(beds_[bed][i].begin(), beds_[bed][i].end(),
                         [](const Ranked& a, const Ranked& b) { return a.most > b.most; });
      }
    }
    best_ = search(Lifted::Nothing, true);
  }

  long tried = 0;
  [[nodiscard]] double optimum() const { return best_.value; }

  /// True where the best plan would be another one without it. `much` = worth that counts.
  [[nodiscard]] bool binds(Lifted lifted, double much) const {
    return search(lifted, true).value > value(*best_.first, *best_.second, lifted, true) + much;
  }
  /// True where it matters that a harvest counts once.
  [[nodiscard]] bool sharing_binds(double much) const {
    return search(Lifted::Nothing, false).value > best_.value + much;
  }

 private:
  struct Ranked {
    TriedPath path;
    double most = 0.0;  ///< no plan gains more by it, whatever the other bed does
  };
  struct Pair {
    const TriedPath* first = nullptr;
    const TriedPath* second = nullptr;
    double value = -1e300;
  };

  [[nodiscard]] Harvests harvests(const TriedPath& first, const TriedPath* second) const {
    Harvests sum;
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      const double m2 = first.picked[i] + (second != nullptr ? second->picked[i] : 0.0);
      if (m2 > 0.0) sum.emplace_hint(sum.end(), cells_[i], m2);
    }
    return sum;
  }

  [[nodiscard]] Ranked rank(const TriedPath& path, std::size_t lift) const {
    const double generous = worth_of(harvests(path, nullptr), *garden_, *catalogue_, false);
    return {path, generous - path.cost(static_cast<Lifted>(lift))};
  }

  [[nodiscard]] double value(const TriedPath& first, const TriedPath& second, Lifted lifted,
                             bool shared) const {
    return worth_of(harvests(first, &second), *garden_, *catalogue_, shared) - first.cost(lifted) -
           second.cost(lifted);
  }

  [[nodiscard]] Pair search(Lifted lifted, bool shared) const {
    const auto lift = static_cast<std::size_t>(lifted);
    Pair best;
    for (const Ranked& first : beds_[0][lift]) {
      if (first.most + beds_[1][lift].front().most <= best.value) break;
      for (const Ranked& second : beds_[1][lift]) {
        if (first.most + second.most <= best.value) break;
        const double now = value(first.path, second.path, lifted, shared);
        if (now > best.value) best = {&first.path, &second.path, now};
      }
    }
    return best;
  }

  const garden::Garden* garden_;
  const catalogue::Catalogue* catalogue_;
  EveryPath::Cells cells_;
  std::array<std::array<std::vector<Ranked>, kLifts>, 2> beds_;
  Pair best_;
};

}  // namespace aftercrop::support
