#include "aftercrop/catalogue/catalogue.h"

#include <doctest/doctest.h>

#include <set>

#include "aftercrop/load/load.h"

using namespace aftercrop::catalogue;

namespace {

const Catalogue& rows() { return aftercrop::load::embedded_catalogue(); }

CropId crop(const char* id) {
  const auto found = rows().find_crop(id);
  REQUIRE_MESSAGE(found, id);
  return *found;
}

}  // namespace

TEST_CASE("catalogue: it is as large as promised") {
  int food = 0;
  int covers = 0;
  std::set<std::size_t> families;
  int forms = 0;
  int mixtures = 0;
  for (const Crop& one : rows().crops) {
    if (one.form_of.known()) ++forms;
    if (!one.mixture.empty()) ++mixtures;
    if (one.form_of.known() || !one.mixture.empty()) continue;
    one.is_cover() ? ++covers : ++food;
    if (!one.is_cover()) families.insert(one.family.place());
  }
  int southern = 0;
  int frost_free = 0;
  for (const ClimateNormals& one : rows().climates) {
    if (one.latitude < 0) ++southern;
    if (!one.last_frost && one.frost_years < 0.05) ++frost_free;
  }
  CHECK(food == 98);
  CHECK(covers == 42);
  CHECK(forms == 15);
  CHECK(mixtures == 9);
  CHECK(families.size() >= 10);
  CHECK(rows().pathogens.size() == 52);
  CHECK(rows().climates.size() == 98);
  CHECK(southern >= 4);
  CHECK(frost_free >= 2);
}

TEST_CASE("catalogue: breaks bind crop groups, covers by their own count") {
  struct Row {
    const char* earlier;
    const char* later;
    bool clubroot_seen;
    Break expected;
  };
  // Family breaks: min, rec. Peas and beans: 0, 1. Brassica covers: 0, 3, and 2, 3 once clubroot
  // was seen. Legume covers against legume crops: none.
  const Row table[] = {
      {"tomato", "potato", false, {2, 3}},         {"kale", "radish", false, {2, 3}},
      {"kale", "mustard-brown", false, {0, 3}},    {"mustard-brown", "kale", true, {2, 3}},
      {"pea-shell", "faba", false, {2, 3}},        {"pea-shell", "bush-bean", false, {0, 1}},
      {"bush-bean", "pea-shell", false, {0, 1}},   {"bush-bean", "peanut", false, {1, 2}},
      {"hairy-vetch", "pea-shell", false, {}},     {"red-clover", "bush-bean", false, {}},
      {"sweet-corn", "popcorn", false, {0, 1}},    {"rye", "sweet-corn", false, {}},
      {"strawberry", "strawberry", false, {1, 4}}, {"lettuce-head", "endive", false, {0, 1}},
      {"tomato", "strawberry", false, {}},         {"nasturtium", "kale", false, {}},
      {"alyssum", "cabbage-late", false, {2, 3}},  {"flax-cover", "flax-cover", false, {0, 3}},
      {"asparagus", "asparagus", false, {8, 30}},  {"buckwheat", "rhubarb", false, {}}};
  for (const Row& row : table) {
    CAPTURE(row.earlier);
    CAPTURE(row.later);
    const Break found = rows().break_between(crop(row.earlier), crop(row.later), row.clubroot_seen);
    CHECK(found.min == row.expected.min);
    CHECK(found.rec == row.expected.rec);
  }
}

TEST_CASE("catalogue: a pathogen knows its hosts and nobody else") {
  const auto id = rows().find_pathogen("verticillium-wilt");
  REQUIRE(id);
  const Pathogen& wilt = rows().pathogen(*id);
  const Host* strawberry = wilt.host(crop("strawberry"));
  REQUIRE(strawberry != nullptr);
  CHECK(strawberry->role == HostRole::Prone);
  CHECK(strawberry->tolerance == doctest::Approx(0.4));
  const Host* radish = wilt.host(crop("radish"));
  REQUIRE(radish != nullptr);
  CHECK(radish->role == HostRole::Partial);
  CHECK(radish->gain == doctest::Approx(0.5));
  CHECK(wilt.host(crop("sweet-corn")) == nullptr);
  CHECK(wilt.host(crop("rye")) == nullptr);
}

TEST_CASE("catalogue: rows are found by exact id only") {
  CHECK(rows().find_soil("silt-loam"));
  CHECK(rows().find_amendment("feather-meal"));
  CHECK(rows().find_climate("minneapolis") != nullptr);
  CHECK(rows().find_caution("faba-g6pd") != nullptr);
  CHECK_FALSE(rows().find_crop("Tomato"));
  CHECK_FALSE(rows().find_crop("eggplant"));
  CHECK(rows().find_climate("atlantis") == nullptr);
}
