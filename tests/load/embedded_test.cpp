#include <doctest/doctest.h>

#include <string>

#include "aftercrop/load/names.h"
#include "support/reading.h"

using namespace aftercrop;

TEST_CASE("embedded rows: the shortest garden loads with notes only") {
  diagnostic::Diagnostics said;
  const auto loaded = load::load_garden(
      "lot/garden.yaml", load::embedded_catalogue(),
      support::reader({{"lot/garden.yaml",
                        "seasons: 2027\n"
                        "site: {last_frost: 05-08, first_frost: 10-05}\n"
                        "beds: 6 of 8 ft x 4 ft\n"
                        "wants: [tomatoes, lettuce, carrots, green beans, garlic, {crop: kale, "
                        "amount: 20 plants}]\n"}}),
      said);
  for (const auto& one : said.all()) CAPTURE(one.message);
  REQUIRE(loaded);
  CHECK(said.count(diagnostic::Severity::Error) == 0);
  CHECK(said.count(diagnostic::Severity::Warning) == 0);
  CHECK(loaded->garden.beds.size() == 12);
  CHECK(loaded->garden.wants.size() > 6);
}

TEST_CASE("embedded rows: names as people write them, British and American") {
  struct Row {
    const char* typed;
    const char* id;  ///< "" = refused
  };
  const Row rows[] = {{"eggplants", "aubergine"},
                      {"zucchini", "squash-summer"},
                      {"courgettes", "squash-summer"},
                      {"Brussels sprouts", "brussels-sprout"},
                      {"scallions", "onion-bunching"},
                      {"onions", "onion-bulb"},
                      {"peas", "pea-shell"},
                      {"potatoes", "potato"},
                      {"beets", "beet"},
                      {"Swiss chard", "chard"},
                      {"cabbage", "cabbage-late"},
                      {"winter squash", "squash-winter"},
                      {"cherry tomatoes", "tomato-cherry"},
                      {"bell peppers", "pepper"},
                      {"sweet corn", "sweet-corn"},
                      {"radishes", "radish"},
                      {"lamb's lettuce", "corn-salad"},
                      {"miner's lettuce", "claytonia"},
                      {"winter rye", "rye"},
                      {"hairy vetch", "hairy-vetch"},
                      {"broad beans", "faba"},
                      {"mustard", ""}};
  for (const Row& row : rows) {
    CAPTURE(std::string(row.typed));
    diagnostic::Diagnostics said;
    const auto found = load::find_crop(row.typed, load::embedded_catalogue(), {}, said);
    CHECK((found ? load::embedded_catalogue().crop(*found).id : std::string()) == row.id);
  }
}

TEST_CASE("embedded rows: the crops alone are the crops of the whole") {
  const auto& whole = load::embedded_catalogue();
  const auto& alone = load::embedded_crops();
  REQUIRE(alone.crops.size() == whole.crops.size());
  for (std::size_t i = 0; i < whole.crops.size(); ++i) {
    CAPTURE(whole.crops[i].id);
    CHECK(alone.crops[i].id == whole.crops[i].id);
    CHECK(alone.crops[i].sources == whole.crops[i].sources);
    CHECK(alone.crops[i].group == whole.crops[i].group);
    CHECK(alone.crops[i].cautions == whole.crops[i].cautions);
  }
  CHECK(alone.families.size() == whole.families.size());
  CHECK(alone.pathogens.empty());
}
