#include <doctest/doctest.h>

#include <string>

#include "aftercrop/sequencer/sequence.h"
#include "support/judged.h"

// Why a want stays short: the smallest set of obstacles, and what would help.
using namespace aftercrop;

namespace {

std::string why(const std::string& garden) {
  const auto ground = support::ground_of(garden, "");
  sequencer::Stop stop;
  stop.within_seconds = 3600.0;
  stop.max_rounds = 10;
  const auto outcome = sequencer::sequence(ground.garden(), ground.rows(), *ground.climates, stop);
  std::string all;
  for (const auto& want : outcome.wants) all += want.why;
  return all;
}

std::string garden_with(const std::string& rest,
                        const std::string& bed = "length: 6 m, width: 1 m") {
  return "garden: Small\nsite: {climate: minneapolis}\nunits: metric\nseasons: {from: 2027-03-01, "
         "years: 1}\nbeds:\n  - {beds: [A], " +
         bed + "}\n" + rest;
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("reasons: a family that was here is the reason alone, and a shorter break would help") {
  const std::string text =
      why(garden_with("history:\n  - {bed: A, crop: tomato, from: 2026-05-25, to: 2026-09-28}\n"
                      "wants:\n  - {crop: potato, amount: 6 m2, harvest: [07-15, 10-01]}\n"));
  CAPTURE(text);
  CHECK(holds(text, "family-break keeps it out"));
  CHECK(holds(text, "accept"));
  CHECK_FALSE(holds(text, "other crops"));
  CHECK_FALSE(holds(text, "fleece"));
}

TEST_CASE("reasons: a bed that another crop holds") {
  const std::string text = why(
      garden_with("wants:\n  - {crop: tomato, amount: 6 m2, harvest: [08-01, 10-01], weight: 9}\n"
                  "  - {crop: pepper, amount: 6 m2, harvest: [08-01, 10-01]}\n"));
  CAPTURE(text);
  CHECK(holds(text, "other crops"));
  CHECK(holds(text, "1 bed more"));
  CHECK_FALSE(holds(text, "family-break"));
}

TEST_CASE("reasons: too much is asked of the land itself") {
  const std::string text =
      why(garden_with("wants:\n  - {crop: bush-bean, amount: 60 m2, harvest: [07-01, 09-20]}\n"));
  CAPTURE(text);
  CHECK(holds(text, "cannot give so much"));
}

TEST_CASE("reasons: no week lets it be picked so early") {
  const std::string text =
      why(garden_with("wants:\n  - {crop: tomato, amount: 6 m2, harvest: [05-01, 06-01]}\n"));
  CAPTURE(text);
  CHECK(holds(text, "no week"));
}

TEST_CASE("reasons: a bed too small for a stand") {
  const std::string text =
      why(garden_with("wants:\n  - {crop: sweet-corn, amount: 1 m2, harvest: [07-15, 09-30]}\n",
                      "length: 1 m, width: 1 m"));
  CAPTURE(text);
  CHECK(holds(text, "smaller than"));
}
