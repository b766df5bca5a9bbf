#include "emit/nitrogen_band.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace aftercrop::emit {
namespace {

using nitrogen::Cause;
using nitrogen::Pool;
using nitrogen::Posting;

/// How much less or more there may be, a cause at a time, kg N/ha.
class Doubt {
 public:
  explicit Doubt(const catalogue::NitrogenCoefficients& k) : k_(&k) {}

  /// Doubt about one posting into or out of the pool.
  void add(const Posting& posting) {
    const auto cause = static_cast<std::size_t>(posting.cause);
    const double size = std::abs(posting.kg_per_ha);
    const double small = size * (1.0 - k_->causes[cause].low);
    const double large = size * (k_->causes[cause].high - 1.0);
    less_[cause] += posting.kg_per_ha > 0.0 ? small : large;
    more_[cause] += posting.kg_per_ha > 0.0 ? large : small;
  }

  void keep(double share) {
    for (double& one : less_) one *= share;
    for (double& one : more_) one *= share;
  }

  /// A test says how much there is.
  void set_by_test(double mineral) {
    keep(0.0);
    const auto test = static_cast<std::size_t>(Cause::SoilTest);
    less_[test] = mineral * (1.0 - k_->causes[test].low);
    more_[test] = mineral * (k_->causes[test].high - 1.0);
  }

  /// A crop was short of so much: it would have taken up that much more, and left no less.
  void take_up(double missing) {
    const double most = sum(more_);
    const double left = most > 0.0 ? std::max(0.0, most - missing) / most : 0.0;
    for (double& one : less_) one = 0.0;
    for (double& one : more_) one *= left;
  }

  [[nodiscard]] Span around(double mineral) const {
    return {mineral, std::max(0.0, mineral - sum(less_)), mineral + sum(more_)};
  }

 private:
  using ByCause = std::array<double, catalogue::kCauses>;
  static double sum(const ByCause& parts) {
    double squares = 0.0;
    for (const double one : parts) squares += one * one;
    return std::sqrt(squares);
  }

  const catalogue::NitrogenCoefficients* k_;
  ByCause less_{};
  ByCause more_{};
};

void live(const Posting& posting, double& mineral, Doubt& doubt) {
  if (posting.pool == Pool::Crop && posting.cause == Cause::Bought) {
    doubt.take_up(posting.kg_per_ha);
  }
  if (posting.pool != Pool::Mineral) return;
  const double before = mineral;
  mineral += posting.kg_per_ha;
  if (posting.cause == Cause::SoilTest) {
    doubt.set_by_test(mineral);
    return;
  }
  const bool lost = posting.cause == Cause::Leaching || posting.cause == Cause::GasLoss;
  if (lost && before > 0.0) doubt.keep(std::clamp(mineral / before, 0.0, 1.0));
  doubt.add(posting);
}

}  // namespace

std::vector<ReadySpan> ready_spans(const ledger::BedAccount& account,
                                   const catalogue::NitrogenCoefficients& k) {
  double mineral = account.opening.mineral;
  Doubt doubt(k);
  std::vector<ReadySpan> spans = {{account.from, doubt.around(mineral)}};
  for (const Posting& posting : account.postings) {
    live(posting, mineral, doubt);
    const ReadySpan now{posting.week + calendar::Weeks(1), doubt.around(mineral)};
    if (spans.back().week == now.week) {
      spans.back() = now;
    } else {
      spans.push_back(now);
    }
  }
  return spans;
}

}  // namespace aftercrop::emit
