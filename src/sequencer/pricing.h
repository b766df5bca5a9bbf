#pragma once

#include <atomic>
#include <functional>
#include <memory>
#include <vector>

#include "sequencer/completion.h"
#include "sequencer/labels.h"

namespace aftercrop::sequencer {

/// Searches classes for paths that earn most at given prices. Keeps each class's completion, so
/// that multipliers start from where they last were.
class Pricing {
 public:
  /// Both must outlive it.
  Pricing(const std::vector<BedClass>& classes, const Objective& objective);

  /// `search_all` gives up once this says so; may be asked by two threads at once.
  void give_up_when(std::function<bool()> late) { late_ = std::move(late); }

  [[nodiscard]] Found search(std::size_t bed_class, const Prices& prices, const Effort& effort);
  /// The same, starting from fees of the last prices but leaving them as they are: may run beside
  /// others.
  [[nodiscard]] Found search_apart(std::size_t bed_class, const Prices& prices,
                                   const Effort& effort) const;
  /// Every class that is asked for, two at a time; results by class, so that the order of arrival
  /// changes nothing. Classes that are not asked for find nothing. `known` = what each class is
  /// known to earn at these prices; empty = nothing. Finds nothing at all where it gave up.
  [[nodiscard]] std::vector<Found> search_all(const Prices& prices, const Effort& effort,
                                              const std::vector<double>& known = {},
                                              const std::vector<char>& asked = {});

  /// The best relaxed path of a class: its stands, and what no path earns more than.
  struct Relaxation {
    std::vector<int> choices;
    double bound = 0.0;
  };
  [[nodiscard]] std::vector<Relaxation> relax_all(const Prices& prices, int fee_steps);

  /// What a path of the class earns at these prices.
  [[nodiscard]] double worth(std::size_t bed_class, const Path& path, const Prices& prices) const;

  [[nodiscard]] long labels() const { return labels_; }
  [[nodiscard]] Completion& completion(std::size_t bed_class) { return completions_[bed_class]; }

 private:
  [[nodiscard]] std::vector<std::vector<double>> profits_of_kinds(const Prices& prices) const;
  template <class Work>
  void for_each_class(const Work& work) const;

  std::function<bool()> late_;
  const std::vector<BedClass>* classes_;
  const Objective* objective_;
  std::vector<std::unique_ptr<Relaxed>> relaxed_;  ///< one a kind
  std::vector<std::size_t> kind_;                  ///< one a class
  std::vector<Completion> completions_;
  mutable std::atomic<long> labels_ = 0;
};

}  // namespace aftercrop::sequencer
