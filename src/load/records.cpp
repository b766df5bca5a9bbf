#include "load/records.h"

#include <fmt/format.h>

#include <algorithm>

#include "load/measure.h"
#include "load/moments.h"

namespace aftercrop::load {
namespace {

using diagnostic::Diagnostics;
using garden::BedId;
using garden::Garden;
using garden::Sighting;
using garden::SightingSeverity;
using garden::SoilTest;

constexpr double kKgPerHaOfKgPerM2 = 10000.0;

const Ask kNitrate{"nitrate nitrogen",
                   {Dimension::Concentration, Dimension::MassPerArea},
                   "ppm, kg/ha, lb/acre",
                   {0.0, 2000.0}};
const Ask kMineralisable{"mineralisable nitrogen", {Dimension::Concentration}, "ppm", {0.0, 500.0}};
const Ask kDepth{"the depth of a soil test", {Dimension::Length}, "cm, in", {0.02, 1.5}};
const Ask kCount{"the count of a disease", {Dimension::CountPerGram}, "/g", {0.0, 1e9}};

/// ppm of a test. 1 ppm = 0.1 x density x depth kg/ha (density in g/cm3, depth in cm).
double to_ppm(double value, Dimension dimension, double depth_cm, double density) {
  if (dimension == Dimension::Concentration) return value;
  return value * kKgPerHaOfKgPerM2 / (0.1 * density * depth_cm);
}

/// `nitrate_n:` is nitrogen in nitrate, `nitrate:` the whole ion: laboratories print either.
constexpr double kNitrogenInNitrate = 14.007 / 62.005;

void read_nitrate(const Node& node, bool ion, const Garden& garden,
                  const catalogue::Catalogue& catalogue, SoilTest& test, Diagnostics& out) {
  const auto measure = read_measure(node, kNitrate, out);
  if (!measure) return;
  const double density = catalogue.soil(garden.bed(test.bed).soil).bulk_density;
  const double share = ion ? kNitrogenInNitrate : 1.0;
  const auto ppm = [&](double value) {
    return share * to_ppm(value, measure->dimension, test.depth_cm, density);
  };
  if (!check_range(ppm(measure->value), "ppm", {0.0, 500.0}, "nitrate nitrogen", node.source,
                   out)) {
    return;
  }
  test.nitrate_n_ppm = ppm(measure->value);
  test.nitrate_digits = ppm(measure->half_digit);
  test.typed = ion ? node.text + " of nitrate" : node.text;
  test.typed_as_ppm = measure->dimension == Dimension::Concentration;
  test.typed_number = share * measure->typed;
}

std::optional<SoilTest> read_test(const Node& node, const Garden& garden, Lookup& lookup,
                                  std::vector<BedId>& beds, Diagnostics& out) {
  const Fields fields(
      node, "a soil test",
      {"bed", "date", "nitrate_n", "nitrate", "mineralisable_n", "depth", "disease", "count"}, out);
  const Node* bed = fields.need("bed", out);
  const Node* date = fields.need("date", out);
  if (!fields.is_table()) return {};
  SoilTest test;
  test.source = node.source;
  if (bed != nullptr) beds = lookup.beds(*bed, out);
  const auto day =
      date != nullptr ? read_date(*date, "the date of a soil test", out) : std::nullopt;
  if (const Node* depth = fields.get("depth")) {
    if (const auto measure = read_measure(*depth, kDepth, out))
      test.depth_cm = measure->value * 100;
  }
  if (const Node* disease = fields.get("disease")) test.disease = lookup.pathogen(*disease, out);
  if (const Node* count = fields.get("count")) {
    if (const auto measure = read_measure(*count, kCount, out)) test.count = measure->value;
  }
  const Node* nitrate = fields.get("nitrate_n");
  const bool ion = nitrate == nullptr && fields.get("nitrate") != nullptr;
  if (ion) nitrate = fields.get("nitrate");
  if (const Node* incubated = fields.get("mineralisable_n")) {
    if (const auto measure = read_measure(*incubated, kMineralisable, out)) {
      test.mineralisable_ppm = measure->value;
    }
  }
  if (nitrate == nullptr && fields.get("disease") == nullptr &&
      fields.get("mineralisable_n") == nullptr) {
    out.error("missing-key", "a soil test needs a result", node.source,
              "add `nitrate_n: 14 ppm`, or `disease:` and `count:`");
    return {};
  }
  if (beds.empty() || !day) return {};
  test.date = *day;
  test.bed = beds.front();
  if (nitrate != nullptr) read_nitrate(*nitrate, ion, garden, lookup.catalogue(), test, out);
  return test;
}

/// The other sections of the beds that `named` are sections of.
std::vector<BedId> other_sections(const std::vector<BedId>& named, const Garden& garden,
                                  const Lookup& lookup) {
  std::vector<BedId> others;
  for (const BedId id : named) {
    for (const BedId sibling : lookup.bed(garden.bed(id).whole)) {
      if (std::find(named.begin(), named.end(), sibling) != named.end()) continue;
      if (std::find(others.begin(), others.end(), sibling) == others.end())
        others.push_back(sibling);
    }
  }
  return others;
}

void read_sighting(const Node& node, const Garden& garden, Lookup& lookup,
                   std::vector<Sighting>& sightings, Diagnostics& out) {
  const Fields fields(node, "a sighting", {"bed", "disease", "date", "severity"}, out);
  const Node* bed = fields.need("bed", out);
  const Node* disease = fields.need("disease", out);
  const Node* date = fields.need("date", out);
  Sighting sighting;
  sighting.source = disease != nullptr ? disease->source : node.source;
  const auto beds = bed != nullptr ? lookup.beds(*bed, out) : std::vector<BedId>();
  const auto pathogen = disease != nullptr ? lookup.pathogen(*disease, out) : std::nullopt;
  const auto day = date != nullptr ? read_date(*date, "the date of a sighting", out) : std::nullopt;
  if (const Node* severity = fields.get("severity")) {
    const auto level = read_choice<SightingSeverity>(*severity, "a severity",
                                                     {{"trace", SightingSeverity::Trace},
                                                      {"some", SightingSeverity::Some},
                                                      {"severe", SightingSeverity::Severe}},
                                                     out);
    if (level) sighting.severity = *level;
  }
  if (!pathogen || !day) return;
  sighting.disease = *pathogen;
  sighting.date = *day;
  for (const BedId id : beds) {
    sighting.bed = id;
    sightings.push_back(sighting);
  }
  sighting.shared = true;
  for (const BedId id : other_sections(beds, garden, lookup)) {
    sighting.bed = id;
    sightings.push_back(sighting);
  }
}

}  // namespace

std::vector<SoilTest> read_tests(const Node& node, const Garden& garden, Lookup& lookup,
                                 Diagnostics& out) {
  std::vector<SoilTest> tests;
  for (const Node* item : read_list(node, "tests", out)) {
    std::vector<BedId> beds;
    const auto test = read_test(*item, garden, lookup, beds, out);
    if (!test) continue;
    for (const BedId bed : beds) {
      tests.push_back(*test);
      tests.back().bed = bed;
    }
  }
  return tests;
}

std::vector<Sighting> read_sightings(const Node& node, const Garden& garden, Lookup& lookup,
                                     Diagnostics& out) {
  std::vector<Sighting> sightings;
  for (const Node* item : read_list(node, "sightings", out)) {
    read_sighting(*item, garden, lookup, sightings, out);
  }
  return sightings;
}

}  // namespace aftercrop::load
