#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <string>
#include <vector>

#include "support/reading.h"

using namespace aftercrop;
using support::read_garden;

namespace {

const std::vector<std::string> kBlocks = {
    "garden: Lot\n",
    "site: {climate: minneapolis, last_frost: 05-08}\n",
    "units: us\n",
    "seasons: {from: 2027-03-01, years: 3}\n",
    "beds:\n"
    "  - {beds: [N1, N2, N3, N4], length: 16 ft, width: 4 ft, sections: 2, soil: silt loam, "
    "organic_matter: 4.5 %, ph: 6.6}\n"
    "  - {beds: S1..S3, length: 24 ft, width: 4 ft, shelter: tunnel, beside: [N1], lies: [3, 4]}\n",
    "history:\n"
    "  - {bed: N1, crop: tomato, from: 2026-05-20, to: 2026-10-02, ending: harvested-pulled}\n"
    "  - {bed: N2, crop: kale, year: 2026}\n",
    "tests:\n  - {bed: N1, date: 2027-03-10, nitrate_n: 14 ppm, depth: 30 cm}\n",
    "amendments:\n  - {bed: all, each: year, date: 04-15, material: compost, amount: 1 in}\n",
    "sightings:\n  - {bed: N1, disease: verticillium-wilt, date: 2026-08-15, severity: some}\n",
    "wants:\n"
    "  - {crop: tomato, amount: 220 lb, harvest: [2027-07-15, 2027-09-30], weight: 3}\n"
    "  - {crop: lettuce, amount: 6 lb, every: 1 week, harvest: [05-20, 10-10], years: each}\n"
    "  - green beans\n",
    "pests: [flea-beetle]\n",
    "keep:\n  - {bed: N4, crop: garlic, from: 2026-10-10, to: 2027-07-20}\n",
    "rules: {legume-before-heavy-feeder: require, bare-winter: off}\n",
    "work: {hours_per_week: 14, except: [{from: 2027-12-18, to: 2028-01-20, hours: 0}]}\n",
    "costs: {nitrogen: 6 /kg, work: 12 /h}\n",
};

std::string joined(const std::vector<std::string>& blocks) {
  std::string text;
  for (const std::string& block : blocks) text += block;
  return text;
}

}  // namespace

TEST_CASE("property: the order of keys changes nothing") {
  const auto plain = read_garden(joined(kBlocks));
  CAPTURE(plain.text());
  REQUIRE(plain.loaded);
  CHECK(rc::check("the same garden from any order", [&] {
    std::vector<std::string> blocks = kBlocks;
    for (std::size_t i = blocks.size(); i > 1; --i) {
      std::swap(blocks[i - 1], blocks[*rc::gen::inRange<std::size_t>(0, i)]);
    }
    const auto other = read_garden(joined(blocks));
    RC_ASSERT(other.loaded.has_value());
    const garden::Garden& a = plain.loaded->garden;
    const garden::Garden& b = other.loaded->garden;
    RC_ASSERT(a.seasons == b.seasons);
    RC_ASSERT(a.beds.size() == b.beds.size());
    RC_ASSERT(a.history.size() == b.history.size());
    RC_ASSERT(a.wants.size() == b.wants.size());
    for (std::size_t i = 0; i < a.history.size(); ++i) {
      RC_ASSERT(a.history[i].from == b.history[i].from);
      RC_ASSERT(a.history[i].to == b.history[i].to);
      RC_ASSERT(a.history[i].bed == b.history[i].bed);
    }
    for (std::size_t i = 0; i < a.wants.size(); ++i) {
      RC_ASSERT(a.wants[i].amount == b.wants[i].amount);
      RC_ASSERT(a.wants[i].window == b.wants[i].window);
    }
    RC_ASSERT(a.applications.size() == b.applications.size());
    RC_ASSERT(plain.said.all().size() == other.said.all().size());
  }));
}

TEST_CASE("damage: no flipped, lost or doubled byte crashes the readers, and a refusal says why") {
  const std::string whole = joined(kBlocks);
  unsigned state = 12345;
  const auto random = [&state](std::size_t below) {
    state = state * 1664525U + 1013904223U;
    return static_cast<std::size_t>(state >> 8U) % below;
  };
  const std::string odd = "-0.9e:{}[]'\"#,&*!|>%\t\n /AN..\xc3";
  int refused = 0;
  for (int i = 0; i < 2000; ++i) {
    std::string text = whole;
    for (std::size_t hits = 1 + random(3); hits > 0; --hits) {
      const std::size_t at = random(text.size());
      switch (random(4)) {
        case 0:
          text[at] = static_cast<char>(random(256));
          break;
        case 1:
          text[at] = odd[random(odd.size())];
          break;
        case 2:
          text.erase(at, 1 + random(8));
          break;
        default:
          text.insert(at, text.substr(random(text.size()), 1 + random(30)));
          break;
      }
    }
    const auto reading = read_garden(text);
    if (reading.loaded) continue;
    ++refused;
    if (!reading.said.has_errors()) {
      CAPTURE(text);
      CHECK(reading.said.has_errors());
    }
  }
  CHECK(refused > 200);
  CHECK(refused < 2000);
}

TEST_CASE("garden: 300 beds with ten years of history are read quickly") {
  std::string text =
      "garden: Lot\nsite: {climate: minneapolis}\nseasons: 2027\nbeds:\n"
      "  - {beds: B1..B300, length: 10 m, width: 1 m}\nhistory:\n";
  for (int bed = 1; bed <= 300; ++bed) {
    for (int year = 2017; year < 2027; ++year) {
      const std::string y = std::to_string(year);
      text += "  - {bed: B" + std::to_string(bed) + ", crop: kale, from: " + y +
              "-05-01, to: " + y + "-09-01}\n";
    }
  }
  const auto reading = read_garden(text);
  REQUIRE(reading.loaded);
  CHECK(reading.loaded->garden.history.size() == 3000);
}
