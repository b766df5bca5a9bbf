#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/ending.h"
#include "aftercrop/catalogue/ids.h"
#include "aftercrop/nitrogen/step.h"

namespace aftercrop::ledger {

/// Break groups that a catalogue may have; the reader refuses more.
inline constexpr std::size_t kMostGroups = 64;
inline constexpr std::int16_t kNeverSeason = -30000;
inline constexpr calendar::Week kNever{-100000};
/// The bare week of a winter, in a row, from which on bareness counts (our choice).
inline constexpr int kBareWeekThatCounts = 4;
/// Bare weeks at the start of the records: the winter that runs then is not the plan's doing.
inline constexpr int kUnknownWinter = -1000;
/// Rows of the catalogue's host-return table; the reader refuses more.
inline constexpr std::size_t kMostReturns = 32;

/// One pathogen's load in one bed, in units of the damage threshold. Two values from one fold:
/// `cautious` credits biofumigants with their low published efficacy and decides what is allowed;
/// `central` credits the typical one and is printed.
struct Load {
  double cautious = 0.0;
  double central = 0.0;
  bool seen = false;                ///< a sighting or test in this bed
  calendar::Week treated = kNever;  ///< last effective biofumigation
  double treated_quality = 0.0;
  calendar::Week hosted = kNever;  ///< last week of the last host
  friend bool operator==(const Load&, const Load&) = default;
};

/// A stand that has ended, as far as what follows needs to know it.
struct PastStand {
  catalogue::CropId crop;
  calendar::WeekSpan weeks;
  catalogue::Ending ending = catalogue::Ending::HarvestedCut;
  bool useful = false;    ///< a cover that reached its useful stand
  double flower = 0.0;    ///< a cover's progress to first flower
  double dry_t_ha = 0.0;  ///< of the tops that stayed
  double n_pct = 0.0;
  friend bool operator==(const PastStand&, const PastStand&) = default;
};

/// Everything that a bed carries from one week into the next: a value that is folded along the
/// bed's future. Nothing else is remembered.
struct BedState {
  calendar::Week week;         ///< the next week to live through
  calendar::Week known_since;  ///< start of the records: rules that look back stay silent before
  nitrogen::Pools pools;
  std::vector<Load> loads;                             ///< one a tracked pathogen
  std::array<std::int16_t, kMostGroups> crop_season;   ///< last season of a food crop, by group
  std::array<std::int16_t, kMostGroups> cover_season;  ///< last season of a cover
  /// Last season of any crop of a host-return row's `after` list, by row.
  std::array<std::int16_t, kMostReturns> return_season;
  std::array<PastStand, 2> recent;  ///< the last stand, then the one before
  calendar::Week mulched_until = kNever;
  calendar::Week ley_from = kNever;  ///< second year after an old perennial legume begins
  int bare_weeks = 0;  ///< bare weeks of this winter so far, in a row; negative = unknown

  BedState();
  friend bool operator==(const BedState&, const BedState&) = default;
};

}  // namespace aftercrop::ledger
