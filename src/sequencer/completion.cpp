#include "sequencer/completion.h"

#include <algorithm>

namespace aftercrop::sequencer {
namespace {

constexpr double kUnreachable = -1e300;
constexpr double kUnknown = -1e200;
constexpr double kGuess = 0.95;  // of the bound, where no path's earning is known
constexpr int kPatience = 6;     // steps in vain before they get shorter
constexpr double kSame = 1e-9;

constexpr std::size_t at(Readiness readiness) { return static_cast<std::size_t>(readiness); }

}  // namespace

Completion::Completion(const Relaxed& relaxed, Relaxed::Past past)
    : relaxed_(&relaxed),
      past_(std::move(past)),
      values_(static_cast<std::size_t>(relaxed.nodes()) * kReadinesses, 0.0),
      fee_(relaxed.groups().size() * static_cast<std::size_t>(relaxed.seasons()), 0.0),
      paid_(relaxed.keys().size(), 0.0) {
  sum_fees();
}

std::size_t Completion::place(std::size_t group, int season) const {
  const int seasons = relaxed_->seasons();
  const int offset = std::clamp(season - relaxed_->first_season(), 0, seasons - 1);
  return group * static_cast<std::size_t>(seasons) + static_cast<std::size_t>(offset);
}

double Completion::fee_of(const Relaxed::Key& key) const {
  const int last = key.season + relaxed_->groups()[key.group].breaks;
  double sum = 0.0;
  for (int season = key.season; season <= last; ++season) sum += fee_[place(key.group, season)];
  return sum * key.share;
}

double Completion::value(int node, Readiness readiness) const {
  return values_[static_cast<std::size_t>(node) * kReadinesses + at(readiness)];
}

double Completion::total() const {
  double sum = value(0, past_.start);
  for (const double fee : fee_) sum += fee;
  return sum;
}

void Completion::sweep(const std::vector<double>& profits) {
  for (std::size_t key = 0; key < paid_.size(); ++key) paid_[key] = fee_of(relaxed_->keys()[key]);
  for (int node = relaxed_->end() - 1; node >= 0; --node) {
    double none = kUnreachable;
    double older = kUnreachable;
    double latest = kUnreachable;
    const auto [first, past] = relaxed_->leaving(node);
    for (std::size_t i = first; i < past; ++i) {
      const Relaxed::Arc& arc = relaxed_->arcs()[i];
      if (past_.refused[i]) continue;
      const double* then = &values_[static_cast<std::size_t>(arc.to) * kReadinesses];
      if (!arc.stand) {
        none = std::max(none, then[at(Readiness::None)]);
        older = std::max(older, then[at(Readiness::Older)]);
        latest = std::max(latest, then[at(Readiness::Latest)]);
        continue;
      }
      double profit = profits[i] - arc.costs;
      if (arc.key >= 0) profit -= paid_[static_cast<std::size_t>(arc.key)];
      const auto worth = [&](Readiness before) {
        return profit - arc.unready[at(before)] + then[at(after(before, arc.gives))];
      };
      none = std::max(none, worth(Readiness::None));
      older = std::max(older, worth(Readiness::Older));
      latest = std::max(latest, worth(Readiness::Latest));
    }
    double* here = &values_[static_cast<std::size_t>(node) * kReadinesses];
    here[at(Readiness::None)] = none;
    here[at(Readiness::Older)] = older;
    here[at(Readiness::Latest)] = latest;
  }
}

std::vector<std::size_t> Completion::best_arcs(const std::vector<double>& profits) const {
  std::vector<std::size_t> path;
  Readiness readiness = past_.start;
  for (int node = 0; node < relaxed_->end();) {
    const auto [first, past] = relaxed_->leaving(node);
    std::size_t taken = past;
    double best = kUnreachable;
    for (std::size_t i = first; i < past; ++i) {
      const Relaxed::Arc& arc = relaxed_->arcs()[i];
      if (past_.refused[i]) continue;
      double worth = profits[i] - arc.costs;
      if (arc.key >= 0) worth -= paid_[static_cast<std::size_t>(arc.key)];
      if (arc.stand) worth -= arc.unready[at(readiness)];
      worth += value(arc.to, arc.stand ? after(readiness, arc.gives) : readiness);
      if (worth <= best) continue;
      best = worth;
      taken = i;
    }
    if (taken == past) break;
    const Relaxed::Arc& arc = relaxed_->arcs()[taken];
    path.push_back(taken);
    if (arc.stand) readiness = after(readiness, arc.gives);
    node = arc.to;
  }
  return path;
}

/// How often the best path pays each fee.
void Completion::count_fees(const std::vector<double>& profits, std::vector<double>& paid) const {
  paid.assign(fee_.size(), 0.0);
  for (const std::size_t taken : best_arcs(profits)) {
    const int which = relaxed_->arcs()[taken].key;
    if (which < 0) continue;
    const Relaxed::Key& key = relaxed_->keys()[static_cast<std::size_t>(which)];
    const int last = key.season + relaxed_->groups()[key.group].breaks;
    for (int s = key.season; s <= last; ++s) paid[place(key.group, s)] += key.share;
  }
}

/// Polyak's steps: as long as the distance to the target over the slope's length squared.
void Completion::descend(const std::vector<double>& profits, int steps, double target) {
  std::vector<double> best = fee_;
  std::vector<double> paid;
  double scale = 1.0;
  double now = bound_;
  for (int step = 0, in_vain = 0; step < steps; ++step) {
    count_fees(profits, paid);
    double length = 0.0;
    for (std::size_t i = 0; i < fee_.size(); ++i) {
      const double slope = 1.0 - paid[i];
      if (slope < 0.0 || fee_[i] > 0.0) length += slope * slope;
    }
    if (length < kSame || now <= target + kSame) break;
    const double stride = scale * (now - target) / length;
    for (std::size_t i = 0; i < fee_.size(); ++i) {
      fee_[i] = std::max(0.0, fee_[i] - stride * (1.0 - paid[i]));
    }
    sweep(profits);
    now = total();
    if (now < bound_ - kSame) {
      bound_ = now;
      best = fee_;
      in_vain = 0;
    } else if (++in_vain >= kPatience) {
      in_vain = 0;
      scale *= 0.5;
    }
  }
  if (fee_ == best) return;
  fee_ = std::move(best);
  sweep(profits);
}

void Completion::solve(const std::vector<double>& profits, int steps, double target) {
  sweep(profits);
  bound_ = total();
  descend(profits, steps, target <= kUnknown ? kGuess * bound_ : target);
  bound_ = total();
  sum_fees();
}

void Completion::sum_fees() {
  const auto seasons = static_cast<std::size_t>(relaxed_->seasons());
  from_.assign(relaxed_->groups().size() * (seasons + 1), 0.0);
  for (std::size_t group = 0; group < relaxed_->groups().size(); ++group) {
    double* from = &from_[group * (seasons + 1)];
    for (std::size_t s = seasons; s-- > 0;) from[s] = from[s + 1] + fee_[group * seasons + s];
  }
}

std::vector<Certificate::Fee> Completion::fees() const {
  std::vector<Certificate::Fee> fees;
  for (std::size_t group = 0; group < relaxed_->groups().size(); ++group) {
    for (int s = 0; s < relaxed_->seasons(); ++s) {
      const int season = relaxed_->first_season() + s;
      const double fee = fee_[place(group, season)];
      if (fee > 0.0) fees.push_back({relaxed_->groups()[group].group, season, fee});
    }
  }
  return fees;
}

/// What a path may still pay for a group that stood here last in season `last`, from `season` on.
double Completion::fees_of(std::size_t group, int last, int season) const {
  int from = season;
  if (last != ledger::kNeverSeason && season > last) {
    from = std::max(season, last + relaxed_->groups()[group].breaks + 1);
  }
  const int seasons = relaxed_->seasons();
  const int offset = std::clamp(from - relaxed_->first_season(), 0, seasons);
  return from_[group * (static_cast<std::size_t>(seasons) + 1) + static_cast<std::size_t>(offset)];
}

double Completion::ahead(int node, const Relaxed::Standing& standing) const {
  if (node >= relaxed_->end()) return 0.0;
  double sum = value(node, standing.readiness);
  for (std::size_t group = 0; group < relaxed_->groups().size(); ++group) {
    sum += fees_of(group, standing.last[group], relaxed_->season_of(node));
  }
  return sum;
}

void Completion::fees_by_season(const Relaxed::Standing& standing,
                                std::vector<double>& fees) const {
  fees.assign(static_cast<std::size_t>(relaxed_->seasons()), 0.0);
  for (std::size_t group = 0; group < relaxed_->groups().size(); ++group) {
    for (std::size_t s = 0; s < fees.size(); ++s) {
      fees[s] +=
          fees_of(group, standing.last[group], relaxed_->first_season() + static_cast<int>(s));
    }
  }
}

double Completion::ahead_through(std::size_t place, const Relaxed::Standing& standing,
                                 const std::vector<double>& fees) const {
  const Relaxed::Arc& arc = relaxed_->arcs()[place];
  if (past_.refused[place]) return kUnreachable;
  Readiness readiness = standing.readiness;
  double costs = 0.0;
  if (arc.stand) {
    costs = arc.costs + arc.unready[at(readiness)];
    readiness = after(readiness, arc.gives);
  }
  if (arc.to >= relaxed_->end()) return -costs;
  const int season = relaxed_->season_of(arc.to);
  const double most = value(arc.to, readiness) - costs +
                      fees[static_cast<std::size_t>(season - relaxed_->first_season())];
  if (arc.key < 0) return most;
  const Relaxed::Key& key = relaxed_->keys()[static_cast<std::size_t>(arc.key)];
  return most - fees_of(key.group, standing.last[key.group], season) +
         fees_of(key.group, key.season, season);
}

}  // namespace aftercrop::sequencer
