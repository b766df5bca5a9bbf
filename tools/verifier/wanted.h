#pragma once

#include <map>
#include <utility>
#include <vector>

#include "aftercrop/garden/garden.h"
#include "aftercrop/ledger/stand.h"

namespace aftercrop::verifier {

/// Square metres' worth of a typical harvest, by crop and week.
using Harvest = std::map<std::pair<catalogue::CropId, calendar::Week>, double>;

/// What is wanted, week by week: which harvests count, and what they are worth.
class Wanted {
 public:
  /// Both must outlive it.
  Wanted(const garden::Garden& garden, const catalogue::Catalogue& catalogue);

  struct Want {
    catalogue::CropId crop;
    calendar::WeekSpan window;
    double amount_m2 = 0.0;
    double worth_per_m2 = 0.0;
    std::size_t place = 0;  ///< in the garden
  };
  /// In order of the windows' ends: harvests go to the want that closes first.
  [[nodiscard]] const std::vector<Want>& wants() const { return wants_; }
  /// The wants that are open for a crop in a week, as places in `wants`.
  [[nodiscard]] const std::vector<std::size_t>& open(catalogue::CropId crop,
                                                     calendar::Week week) const;
  /// All crops and weeks in which some want is open.
  [[nodiscard]] const std::map<std::pair<catalogue::CropId, calendar::Week>,
                               std::vector<std::size_t>>&
  open_weeks() const {
    return open_;
  }

  /// Adds what a stand on so much land gives to weeks in which it is wanted: a harvest spreads
  /// evenly over its weeks.
  void add_harvest(const ledger::StandSpec& spec, double area_m2, Harvest& harvest) const;
  /// What stands begun before the seasons give.
  [[nodiscard]] const Harvest& given() const { return given_; }
  /// What harvests are worth, none counted twice and none beyond what is wanted.
  [[nodiscard]] double worth(Harvest harvest) const;
  /// What a stand would be worth if all of it were wanted; shares are taken of it. Of crops that
  /// nobody wants a tenth of a want of weight 1.
  [[nodiscard]] double stand_worth(catalogue::CropId crop, double area_m2) const;

 private:
  const garden::Garden* garden_;
  std::vector<Want> wants_;
  std::map<std::pair<catalogue::CropId, calendar::Week>, std::vector<std::size_t>> open_;
  Harvest given_;
};

/// Hours a stand asks for, by week of the seasons: 30 % at its start, 20 % spread over it, 40 %
/// over its harvest and 10 % at its end; without a harvest 50 % at the end. Common practice.
[[nodiscard]] std::map<calendar::Week, double> hours_of(const catalogue::Crop& crop,
                                                        const ledger::StandSpec& spec,
                                                        double area_m2, calendar::WeekSpan seasons);

/// Hours of the hands there are in a week.
[[nodiscard]] double hands_in(const garden::Garden& garden, calendar::Week week);

}  // namespace aftercrop::verifier
