#include <doctest/doctest.h>

#include <algorithm>

#include "aftercrop/load/names.h"
#include "support/reading.h"

// Forms of a crop, mixtures of covers, and the names that people use for them.
using namespace aftercrop;
using catalogue::Catalogue;
using catalogue::Crop;

namespace {

const Catalogue& rows() { return load::embedded_catalogue(); }

const Crop& crop(const Catalogue& from, const std::string& id) {
  const auto found = from.find_crop(id);
  REQUIRE_MESSAGE(found, id);
  return from.crop(*found);
}

struct Loaded {
  std::optional<Catalogue> rows;
  diagnostic::Diagnostics said;
};

Loaded with(const std::string& text) {
  Loaded loaded;
  loaded.rows =
      load::load_catalogue(rows(), "my.yaml", support::reader({{"my.yaml", text}}), loaded.said);
  return loaded;
}

}  // namespace

TEST_CASE("forms: a form is its crop but for what it says, and shares its troubles") {
  const Crop& base = crop(rows(), "faba");
  const Crop& form = crop(rows(), "faba-overwintering");
  CHECK(form.overwinters);
  CHECK_FALSE(base.overwinters);
  CHECK(form.family == base.family);
  CHECK(form.yield_per_m2 == base.yield_per_m2);
  CHECK(form.nitrogen.uptake_kg_ha == base.nitrogen.uptake_kg_ha);
  CHECK(rows().crop(form.form_of).id == "faba");
  const auto id = rows().find_crop("faba-overwintering");
  for (const catalogue::Pathogen& one : rows().pathogens) {
    CAPTURE(one.id);
    CHECK((one.host(*id) != nullptr) == (one.host(form.form_of) != nullptr));
  }
  CHECK(crop(rows(), "onion-bulb-sown").start == catalogue::Start::Sow);
  CHECK(crop(rows(), "carrot-early").days_max < crop(rows(), "carrot-maincrop").days_max);
}

TEST_CASE("forms: a user's row may have forms, and a form may be changed by its id") {
  const Loaded loaded = with(
      "crops:\n"
      "  - id: parsnip\n"
      "    forms: [{form: early, days: {least: 90, most: 110}}]\n"
      "  - {id: carrot-early, yield: {per_m2: [1, 2, 3]}}\n");
  CHECK(loaded.said.all().empty());
  REQUIRE(loaded.rows);
  CHECK(crop(*loaded.rows, "parsnip-early").days_max == doctest::Approx(110));
  CHECK(crop(*loaded.rows, "carrot-early").yield_per_m2.typical == doctest::Approx(2));
  CHECK(crop(*loaded.rows, "carrot").yield_per_m2.typical ==
        crop(rows(), "carrot").yield_per_m2.typical);
}

// rye 3 t/ha at 1.6 % and hairy vetch 2 t/ha at 3.6 %: 48 + 72 = 120 kg N/ha in 5 t/ha, which is
// 2.4 % and, with 42 % carbon, a C:N of 17.5 (arithmetic).
TEST_CASE("mixtures: dry matter and nitrogen add up") {
  const Loaded loaded = with(
      "crops:\n"
      "  - {id: half-rye, like: rye, cover: {biomass_t_ha: [5, 6, 7], n_pct: {vegetative: 2.5, "
      "flowering: 1.6, mature: 0.5}}}\n"
      "  - {id: half-vetch, like: hairy-vetch, cover: {biomass_t_ha: [3, 4, 5], n_pct: "
      "{vegetative: 4, flowering: 3.6, mature: 2}}}\n"
      "mixtures:\n"
      "  - {id: both, name: both, parts: {half-rye: 50 %, half-vetch: 0.5}}\n");
  for (const auto& one : loaded.said.all()) CAPTURE(one.message);
  REQUIRE(loaded.rows);
  const Crop& both = crop(*loaded.rows, "both");
  CHECK(both.cover->biomass_t_ha.typical == doctest::Approx(5.0));
  CHECK(both.cover->n_pct[1] == doctest::Approx(2.4));
  CHECK(42.0 / both.cover->n_pct[1] == doctest::Approx(17.5));
  CHECK(both.legume);
  CHECK(both.kill_c == doctest::Approx(-40));  // alive as long as the rye is
}

TEST_CASE("mixtures: sixty percent of each sole rate in two equal parts; windows of both") {
  const Crop& mixed = crop(rows(), "rye-vetch");
  const Crop& rye = crop(rows(), "rye");
  const Crop& vetch = crop(rows(), "hairy-vetch");
  CHECK(mixed.cover->seed_g_m2 ==
        doctest::Approx(0.6 * (rye.cover->seed_g_m2 + vetch.cover->seed_g_m2)));
  REQUIRE(mixed.cover->windows.size() == 1);
  CHECK(mixed.cover->windows[0].from_weeks == -8);  // of the vetch: -8 to -3
  CHECK(mixed.cover->windows[0].to_weeks == -3);
  // a host of what one of its parts is a host of
  const auto id = rows().find_crop("oat-pea");
  const auto pea = rows().find_crop("field-pea");
  for (const catalogue::Pathogen& one : rows().pathogens) {
    if (one.host(*pea) == nullptr) continue;
    CAPTURE(one.id);
    CHECK(one.host(*id) != nullptr);
  }
  CHECK(crop(rows(), "oat-pea-radish").cover->fumigant == catalogue::Fumigant::None);
}

TEST_CASE("mixtures: mistakes are told with a way out") {
  struct Row {
    const char* parts;
    const char* id;
  };
  const Row table[] = {{"{rye: 60 %, hairy-vetch: 60 %}", "wrong-count"},
                       {"{rye: 100 %}", "out-of-range"},
                       {"{rye: 50 %, tomato: 50 %}", "not-a-cover"},
                       {"{rye: 50 %, hairyvetch: 50 %}", "unknown-crop"},
                       {"[rye, hairy-vetch]", "wrong-shape"},
                       {"{rye: 50 %, sorghum-sudan: 50 %}", "never-together"}};
  for (const Row& row : table) {
    CAPTURE(std::string(row.parts));
    const Loaded loaded =
        with(std::string("mixtures: [{id: mine, name: mine, parts: ") + row.parts + "}]\n");
    CHECK_FALSE(loaded.rows);
    REQUIRE(loaded.said.all().size() == 1);
    CHECK(loaded.said.all().front().id == row.id);
    CHECK_FALSE(loaded.said.all().front().help.empty());
    CHECK(loaded.said.all().front().source.line == 1);
  }
}

TEST_CASE("names: those of seed lists and of two continents") {
  struct Row {
    const char* typed;
    const char* id;
  };
  const Row table[] = {{"corn", "sweet-corn"},
                       {"maize", "sweet-corn"},
                       {"snap beans", "bush-bean"},
                       {"french bean", "bush-bean"},
                       {"string beans", "bush-bean"},
                       {"haricot", "dry-bean"},
                       {"kidney beans", "dry-bean"},
                       {"butter beans", "lima-bean"},
                       {"fava", "faba"},
                       {"broad beans", "faba"},
                       {"bell bean", "faba-cover"},
                       {"tick bean", "faba-cover"},
                       {"garden pea", "pea-shell"},
                       {"mangetout", "pea-snow"},
                       {"sugar pea", "pea-snow"},
                       {"black-eyed peas", "cowpea"},
                       {"edamame", "soybean-edamame"},
                       {"egg plant", "aubergine"},
                       {"capsicums", "pepper"},
                       {"chillies", "pepper-hot"},
                       {"zucchini", "squash-summer"},
                       {"marrow", "squash-summer"},
                       {"butternut", "squash-winter"},
                       {"kabocha", "squash-winter"},
                       {"cantaloupe", "melon"},
                       {"gherkins", "cucumber"},
                       {"rutabaga", "swede"},
                       {"neeps", "swede"},
                       {"daikon", "radish-winter"},
                       {"mooli", "radish-winter"},
                       {"storage cabbage", "cabbage-late"},
                       {"spring cabbage", "cabbage-early"},
                       {"wombok", "cabbage-napa"},
                       {"calabrese", "broccoli"},
                       {"bok choy", "pak-choi"},
                       {"rucola", "rocket"},
                       {"beetroot", "beet"},
                       {"silverbeet", "chard"},
                       {"iceberg lettuce", "lettuce-head"},
                       {"salad mix", "lettuce-leaf"},
                       {"romaine", "lettuce-romaine"},
                       {"frisee", "endive"},
                       {"finocchio", "fennel"},
                       {"cilantro", "coriander"},
                       {"mache", "corn-salad"},
                       {"miner's lettuce", "claytonia"},
                       {"spring onions", "onion-bunching"},
                       {"kumara", "sweet-potato"},
                       {"sunchokes", "jerusalem-artichoke"},
                       {"groundnuts", "peanut"},
                       {"oats", "oat"},
                       {"wheat", "winter-wheat"},
                       {"sudex", "sorghum-sudan"},
                       {"winter tares", "common-vetch"},
                       {"yellow trefoil", "black-medic"},
                       {"blue lupin", "lupin"},
                       {"alfalfa", "lucerne"},
                       {"yellow mustard", "mustard-white"},
                       {"indian mustard", "mustard-brown"},
                       {"fodder radish", "radish-oilseed"},
                       {"dutch white clover", "white-clover"},
                       {"italian ryegrass", "annual-ryegrass"},
                       {"celery root", "celeriac"},
                       {"rye and vetch", "rye-vetch"},
                       {"oats and peas", "oat-pea"},
                       {"early carrots", "carrot-early"},
                       {"overwintering broad beans", "faba-overwintering"}};
  for (const Row& row : table) {
    CAPTURE(std::string(row.typed));
    diagnostic::Diagnostics said;
    const auto found = load::find_crop(row.typed, rows(), {}, said);
    REQUIRE(found.has_value());
    CHECK(rows().crop(*found).id == row.id);
    CHECK(said.all().empty());
  }
}

TEST_CASE("names: one with two meanings is asked back, or taken with a note where that is safe") {
  diagnostic::Diagnostics said;
  CHECK_FALSE(load::find_crop("mustard", rows(), {}, said));  // a leaf to eat, or covers
  CHECK_FALSE(load::find_crop("soybeans", rows(), {}, said));
  REQUIRE(said.all().size() == 2);
  CHECK(said.all()[0].id == "ambiguous-crop");
  CHECK(said.all()[0].message.find("mustard-greens") != std::string::npos);
  diagnostic::Diagnostics noted;
  const auto lettuce = load::find_crop("lettuce", rows(), {}, noted);
  REQUIRE(lettuce.has_value());
  CHECK(rows().crop(*lettuce).id == "lettuce-leaf");
  CHECK(noted.all().front().id == "crop-reading");
}
