#include "sequencer/dive.h"

#include <algorithm>
#include <cmath>

namespace aftercrop::sequencer {
namespace {

constexpr double kWhole = 1e-6;   // nearer than this to a whole number is whole
constexpr double kProfit = 1e-5;  // reduced profit that makes a column worth adding
constexpr std::size_t kPathsAClass = 3;
constexpr int kDiveSteps = 6;

}  // namespace

Dive::Dive(Master& master, Pricing& pricing, const std::vector<BedClass>& classes,
           const Objective& objective, std::function<bool()> enough)
    : master_(&master),
      pricing_(&pricing),
      classes_(&classes),
      objective_(&objective),
      enough_(std::move(enough)) {}

void Dive::start() {
  master_->release_all();
  fixed_.assign(master_->columns().size(), 0);
  left_.clear();
  open_ = 0;
  for (const BedClass& beds : *classes_) {
    left_.push_back(static_cast<int>(beds.beds.size()));
    open_ += left_.back();
  }
}

void Dive::fix(std::size_t column, int beds) {
  if (fixed_.size() < master_->columns().size()) fixed_.resize(master_->columns().size(), 0);
  fixed_[column] += beds;
  left_[master_->columns()[column].bed_class] -= beds;
  open_ -= beds;
  master_->fix(column, fixed_[column]);
}

Assignment Dive::from_scratch(const DiveOptions& options, Draw& draw) {
  start();
  run(options, draw);
  return assign();
}

void Dive::run(const DiveOptions& options, Draw& draw) {
  while (open_ > 0 && master_->solve()) {
    price(options);
    if (!fix_some(options, draw)) break;
  }
  master_->release_all();
}

/// Paths for the classes that still have open beds, at the prices of what is left to them.
void Dive::price(const DiveOptions& options) {
  std::vector<char> asked(classes_->size(), 0);
  for (std::size_t g = 0; g < left_.size(); ++g) asked[g] = left_[g] > 0 ? 1 : 0;
  for (int round = 0; round < options.rounds && !enough_(); ++round) {
    const double before = master_->value();
    bool added = false;
    const std::vector<double> known = master_->class_prices();
    std::vector<Found> found = pricing_->search_all(
        master_->prices(), {options.width, kPathsAClass, kDiveSteps}, known, asked);
    for (std::size_t g = 0; g < found.size(); ++g) {
      for (Path& path : found[g].paths) {
        if (path.priced <= known[g] + kProfit) continue;
        added = master_->add({g, std::move(path)}).second || added;
      }
    }
    if (!added || !master_->solve()) break;
    if (master_->value() < before + 1e-5 * std::abs(before)) break;
  }
}

/// Whole beds first, then the largest fractions, until a share of the open beds is decided.
bool Dive::fix_some(const DiveOptions& options, Draw& draw) {
  const std::vector<double> use = master_->use();
  fixed_.resize(use.size(), 0);
  struct Fraction {
    double weight;
    std::size_t column;
  };
  std::vector<Fraction> fractions;
  const int before = open_;
  for (std::size_t i = 0; i < use.size(); ++i) {
    const double rest = use[i] - fixed_[i];
    const int left = left_[master_->columns()[i].bed_class];
    if (rest <= kWhole || left <= 0) continue;
    const int whole = std::min(left, static_cast<int>(std::floor(rest + kWhole)));
    if (whole > 0) fix(i, whole);
    const double part = rest - whole;
    if (part > kWhole) fractions.push_back({part * (1.0 - options.noise * draw.unit()), i});
  }
  std::stable_sort(fractions.begin(), fractions.end(),
                   [](const Fraction& a, const Fraction& b) { return a.weight > b.weight; });
  const int wanted = std::max(1, static_cast<int>(std::lround(options.share * before)));
  for (const Fraction& one : fractions) {
    if (before - open_ >= wanted) break;
    if (left_[master_->columns()[one.column].bed_class] > 0) fix(one.column, 1);
  }
  return open_ < before;
}

Assignment Dive::assign() const {
  Assignment plan;
  std::size_t beds = 0;
  for (const BedClass& one : *classes_) beds += one.beds.size();
  plan.bed_class.assign(beds, 0);
  plan.paths.resize(beds);
  std::vector<std::size_t> next(classes_->size(), 0);
  const auto give = [&](std::size_t g, const Path& path) {
    const garden::BedId bed = (*classes_)[g].beds[next[g]++];
    plan.bed_class[bed.place()] = g;
    plan.paths[bed.place()] = path;
  };
  std::vector<const Path*> first(classes_->size(), nullptr);
  for (std::size_t i = 0; i < master_->columns().size(); ++i) {
    const Column& column = master_->columns()[i];
    if (first[column.bed_class] == nullptr) first[column.bed_class] = &column.path;
    const int count = i < fixed_.size() ? fixed_[i] : 0;
    for (int k = 0; k < count; ++k) give(column.bed_class, column.path);
  }
  const Path idle;
  for (std::size_t g = 0; g < classes_->size(); ++g) {
    while (next[g] < (*classes_)[g].beds.size()) give(g, first[g] != nullptr ? *first[g] : idle);
  }
  plan.value = value_of(plan, *objective_).total();
  return plan;
}

}  // namespace aftercrop::sequencer
