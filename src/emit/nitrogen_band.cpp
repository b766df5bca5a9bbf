#include "emit/nitrogen_band.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace aftercrop::emit {
namespace {

using nitrogen::Cause;
using nitrogen::Pool;
using nitrogen::Posting;

constexpr double kShort = 0.001;  // kg N/ha in a week: less is no shortage

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
    keep_more(share);
  }

  /// A test says how much there is.
  void set_by_test(double mineral) {
    keep(0.0);
    const auto test = static_cast<std::size_t>(Cause::SoilTest);
    less_[test] = mineral * (1.0 - k_->causes[test].low);
    more_[test] = mineral * (k_->causes[test].high - 1.0);
  }

  /// What a stand does in a week in which it fixed so much and would have drawn so much more.
  void take_up(double missing, double fixed) {
    const double most = sum(more_);
    if (most > 0.0) {
      const double seen = k_->plough_layer_share * most / k_->nitrate_brake;
      keep_more(std::max(0.0, most - missing - fixed * std::min(1.0, seen)) / most);
    }
    if (missing > kShort) less_.fill(0.0);
  }

  [[nodiscard]] Span around(double mineral) const {
    return {mineral, std::max(0.0, mineral - sum(less_)), mineral + sum(more_)};
  }

 private:
  void keep_more(double share) {
    for (double& one : more_) one *= share;
  }

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

/// What the stand of a week needed of nitrogen, kg/ha; 0 where none stood.
double need_in(const ledger::BedAccount& account, calendar::Week week) {
  for (const ledger::StandLine& line : account.stands) {
    const calendar::WeekSpan weeks = line.stand.spec.weeks;
    const auto place = static_cast<std::size_t>((week - weeks.first).count());
    if (weeks.contains(week) && place < line.stand.need.size()) return line.stand.need[place];
  }
  return 0.0;
}

/// The amount of one cause that came into the crop in a week.
double into_crop(const std::vector<Posting>& postings, std::size_t first, std::size_t past,
                 Cause cause) {
  double sum = 0.0;
  for (std::size_t i = first; i < past; ++i) {
    if (postings[i].pool == Pool::Crop && postings[i].cause == cause) sum += postings[i].kg_per_ha;
  }
  return sum;
}

}  // namespace

std::vector<ReadySpan> ready_spans(const ledger::BedAccount& account,
                                   const catalogue::NitrogenCoefficients& k) {
  double mineral = account.opening.mineral;
  Doubt doubt(k);
  std::vector<ReadySpan> spans = {{account.from, doubt.around(mineral)}};
  const std::vector<Posting>& postings = account.postings;
  for (std::size_t first = 0, past = 0; first < postings.size(); first = past) {
    const calendar::Week week = postings[first].week;
    while (past < postings.size() && postings[past].week == week) {
      live(postings[past++], mineral, doubt);
    }
    const double fixed = into_crop(postings, first, past, Cause::Fixation);
    const double taken = into_crop(postings, first, past, Cause::Uptake);
    const double missing = std::max(0.0, need_in(account, week) - taken - fixed) / k.recovery;
    doubt.take_up(missing, fixed);
    spans.push_back({week + calendar::Weeks(1), doubt.around(mineral)});
  }
  return spans;
}

}  // namespace aftercrop::emit
