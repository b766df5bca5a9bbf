#pragma once

#include <optional>
#include <string>
#include <vector>

#include "aftercrop/calendar/date.h"
#include "aftercrop/calendar/week.h"
#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/bed.h"
#include "aftercrop/garden/planting.h"
#include "aftercrop/garden/policy.h"
#include "aftercrop/garden/want.h"
#include "aftercrop/garden/weather_day.h"

namespace aftercrop::garden {

enum class UnitSystem { Metric, Us };
enum class Tillage { None, Hand, Machine };

/// A soil test: the ledger is set to it and the difference shown.
struct SoilTest {
  BedId bed;
  calendar::Date date;
  std::optional<double> nitrate_n_ppm;
  double nitrate_digits = 1.0;  ///< half the last digit typed, ppm
  std::string typed;            ///< "14 ppm"
  double typed_number = 0.0;
  bool typed_as_ppm = true;  ///< otherwise as an amount an area
  double depth_cm = 30.0;
  std::optional<double> mineralisable_ppm;  ///< released by two weeks of incubation at 35 C
  std::optional<catalogue::PathogenId> disease;
  double count = 0.0;  ///< on the pathogen's own scale
  diagnostic::Source source;
};

/// Something spread on a bed.
struct Application {
  BedId bed;
  calendar::Date date;
  catalogue::AmendmentId material;
  double kg_per_m2 = 0.0;
  diagnostic::Source source;
};

enum class SightingSeverity { Trace, Some, Severe };

/// Disease seen by the grower. `shared` marks the other sections of a divided bed whose one
/// section was named: half its load, and no evidence.
struct Sighting {
  BedId bed;
  catalogue::PathogenId disease;
  calendar::Date date;
  SightingSeverity severity = SightingSeverity::Some;
  bool shared = false;
  diagnostic::Source source;
};

struct WorkException {
  calendar::DateSpan span;
  double hours = 0.0;
};

/// What hands there are. Hours 0 = not said: work is then not priced.
struct Hands {
  double hours_per_week = 0.0;
  std::vector<WorkException> exceptions;
};

/// Prices of the objective, in money-like units.
struct Costs {
  double want_per_m2 = 10.0;  ///< times weight, for each m2 that a want needs
  double nitrogen_per_kg = 6.0;
  double leached_per_kg = 2.0;
  double bare_week_per_m2 = 0.02;
  double warn_share = 0.05;     ///< of the stand's value
  double disease_share = 0.20;  ///< of the stand's value at full load
  double work_per_hour = 12.0;
  double change_share = 0.10;  ///< replanning: of the stand's value, for each change
};

struct Site {
  catalogue::ClimateNormals normals;  ///< with the garden's own dates and normals applied
  std::string chosen;                 ///< how it was chosen, a phrase for a note
  std::vector<WeatherDay> weather;    ///< days that were measured, in order; each once
  std::string weather_file;           ///< where they are from; empty = none
  bool own_normals = false;           ///< typed in the garden
  bool weather_normals = false;       ///< worked out from the measured days
  bool own_frosts = false;
};

/// Everything a garden file says, every name resolved, every quantity metric.
struct Garden {
  std::string name;
  Site site;
  UnitSystem units = UnitSystem::Metric;
  calendar::WeekSpan seasons;  ///< bounds the start of plantings
  int years = 1;
  std::vector<Bed> beds;          ///< one entry an account (section)
  std::vector<Planting> history;  ///< what stood where, kept stands included; sorted by bed, start
  /// Stands ahead of a plan that is being changed: leaving them has a price (`costs.change_share`).
  std::vector<Planting> earlier;
  std::vector<SoilTest> tests;
  std::vector<Application> applications;
  std::vector<Sighting> sightings;
  std::vector<Want> wants;
  std::vector<std::string> pests;
  std::vector<std::string> materials;  ///< amendment ids the grower would use, in order
  Policy policy;
  Hands hands;
  Costs costs;
  Tillage tillage = Tillage::Hand;
  bool children = false;  ///< leave out toxic seed, raw manure, irritant gas
  diagnostic::Source source;

  [[nodiscard]] const Bed& bed(BedId id) const { return beds[id.place()]; }
  /// All accounts that a name stands for: "N1.2" one, "N1" all its sections. Empty = unknown.
  [[nodiscard]] std::vector<BedId> find(std::string_view bed_name) const;
};

}  // namespace aftercrop::garden
