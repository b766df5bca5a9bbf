#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/calendar/date.h"
#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/ending.h"
#include "aftercrop/catalogue/ids.h"
#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/garden/bed.h"

namespace aftercrop::garden {

enum class Resistance { None, Tolerant, Resistant };
enum class Placement { Edge, InRow, Between, Around };

struct Partner {
  catalogue::CropId crop;
  Placement at = Placement::Edge;
};

/// One stand of one crop in one section. `from` = first day in the bed (sowing or planting out);
/// `to` = first day on which the bed is free again.
struct Planting {
  BedId bed;
  catalogue::CropId crop;
  calendar::Date from;
  calendar::Date to;
  std::optional<calendar::Date> raised;       ///< sown under cover, for transplants
  std::optional<calendar::DateSpan> harvest;  ///< first day picked, last day picked + 1
  catalogue::Ending ending = catalogue::Ending::HarvestedCut;
  Resistance resistance = Resistance::None;
  std::vector<Partner> partners;
  std::optional<double> yield_kg_m2;  ///< what was really taken, where a record says so
  std::optional<double> dry_t_ha;     ///< a cover's measured top growth, dry matter
  std::optional<double> n_pct;        ///< and its measured nitrogen, % of dry matter
  bool kept = false;                  ///< decided by the grower: the planner works around it
  diagnostic::Source source;
};

/// The weeks a stand touches: from the week of `from` up to, not including, the week of `to`
/// where `to` is a Monday, else that week too. At least one week.
[[nodiscard]] calendar::WeekSpan weeks_of(const Planting& planting);

/// The weeks that take a share of the harvest (inside `weeks_of`); empty span without harvest.
[[nodiscard]] calendar::WeekSpan harvest_weeks_of(const Planting& planting);

/// t/ha of dry matter of a full cover by its height: 2000 lb/acre at 6 inches (cereals: at 8), 150
/// lb more for each further inch. Rough. Source: North Dakota field note on cover crop biomass.
[[nodiscard]] double dry_matter_by_height(double height_m, bool cereal);

/// A proposed or computed plan.
struct Plan {
  std::string name;
  std::string made_by;
  std::vector<Planting> plantings;  ///< sorted by bed, then start
};

}  // namespace aftercrop::garden
