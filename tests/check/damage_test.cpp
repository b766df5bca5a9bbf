#include <doctest/doctest.h>

#include <algorithm>
#include <ctime>
#include <string>

#include "support/judged.h"

// Plans with bytes or values changed at random: each ends with findings or a reading error that
// says where, never in a crash, and soon.
using namespace aftercrop;

namespace {

// Memory checks take their time: a part of the plans, and longer for each.
#if defined(__SANITIZE_ADDRESS__)
constexpr int kPlans = 600;
constexpr double kMostSeconds = 4.0;
#else
constexpr int kPlans = 2500;
constexpr double kMostSeconds = 0.2;
#endif

const char* const kGarden =
    "garden: Trial\nsite: {climate: minneapolis}\nunits: metric\nseasons: {from: 2027-03-01, "
    "years: 3}\n"
    "beds:\n  - {beds: [A, B, C], length: 6 m, width: 1 m, sections: 2}\n"
    "history:\n  - {bed: A, crop: tomato, from: 2026-05-25, to: 2026-09-28}\n"
    "sightings:\n  - {bed: A, disease: verticillium-wilt, date: 2026-08-15}\n"
    "wants:\n  - {crop: tomato, amount: 20 kg, harvest: [07-15, 10-01], years: each}\n";

const char* const kPlan =
    "plan: drawn\n"
    "plantings:\n"
    "  - {bed: A.1, crop: faba-cover, from: 2027-03-22, to: 2027-05-17, ending: cut-roots-left}\n"
    "  - {bed: A.1, crop: sweet-corn, from: 2027-05-31, harvest: [2027-08-16, 2027-08-30], to: "
    "2027-08-30, ending: incorporated}\n"
    "  - {bed: A.2, crop: potato, from: 2027-05-03, to: 2027-08-23}\n"
    "  - {bed: B.1, crop: kale, year: 2027}\n"
    "  - {bed: B.2, crop: tomato, from: 2027-05-24, raised: 2027-04-05, harvest: [2027-08-02, "
    "2027-10-04], to: 2027-10-04, ending: harvested-cut, partners: [{crop: alyssum, at: edge}]}\n"
    "  - {bed: B.2, crop: rye, from: 2027-10-04, to: 2028-05-01, ending: incorporated}\n"
    "rotation:\n"
    "  years: [2028, 2029]\n"
    "  beds: {C: [[pea-shell, kale], carrot + beet]}\n";

/// Still YAML: a digit, a crop, a bed or an ending is another one.
void change_value(std::string& text, support::Stream& random) {
  static const char* const kWords[][2] = {
      {"faba-cover", "rye"},       {"sweet-corn", "garlic"},         {"potato", "asparagus"},
      {"tomato", "lettuce-leaf"},  {"incorporated", "winterkilled"}, {"A.1", "C.2"},
      {"harvested-cut", "failed"}, {"kale", "strawberry"},           {"2027", "2031"}};
  if (random.below(3) == 0) {
    const auto& pair = kWords[random.below(9)];
    const std::size_t at = text.find(pair[0]);
    if (at != std::string::npos) text.replace(at, std::string(pair[0]).size(), pair[1]);
    return;
  }
  for (int tries = 0; tries < 50; ++tries) {
    const std::size_t at = random.below(text.size());
    if (text[at] < '0' || text[at] > '9') continue;
    const bool last = at + 1 == text.size() || text[at + 1] < '0' || text[at + 1] > '9';
    if (!last && random.below(20) != 0) continue;  // other years and months are refused mostly
    text[at] = static_cast<char>('0' + random.below(10));
    return;
  }
}

void damage(std::string& text, support::Stream& random) {
  static const std::string kOdd = "-0.9e:{}[]'\"#,&*!|>%\t\n /AN..\xc3";
  const std::size_t at = random.below(text.size());
  switch (random.below(4)) {
    case 0:
      text[at] = static_cast<char>(random.below(256));
      break;
    case 1:
      text[at] = kOdd[random.below(kOdd.size())];
      break;
    case 2:
      text.erase(at, 1 + random.below(8));
      break;
    default:
      text.insert(at, text.substr(random.below(text.size()), 1 + random.below(30)));
      break;
  }
}

void judge_damaged(unsigned seed) {
  const support::Ground ground = support::ground_of(kGarden, "");
  support::Stream random(seed);
  int judged = 0;
  int refused = 0;
  double slowest = 0.0;
  std::string slow_text;
  for (int i = 0; i < kPlans; ++i) {
    std::string text = kPlan;
    for (std::size_t hits = 1 + random.below(i % 2 == 0 ? 2 : 4); hits > 0; --hits) {
      if (i % 2 == 0) {
        change_value(text, random);
      } else {
        damage(text, random);
      }
    }
    const std::clock_t began = std::clock();  // of the processor: others may be at work here
    diagnostic::Diagnostics said;
    const load::ReadText read = [&](const std::string&) -> load::TextOrReason {
      return {text, {}};
    };
    const auto plan = load::load_plan("plan.yaml", *ground.loaded, read, said);
    if (plan) {
      ++judged;
      const check::Judgement judgement = ground.judge(*plan);
      for (const auto& one : judgement.findings.all()) CHECK_FALSE(one.message.empty());
    } else {
      ++refused;
      CHECK(said.has_errors());
    }
    const double took = static_cast<double>(std::clock() - began) / CLOCKS_PER_SEC;
    if (took > slowest) slow_text = text;
    slowest = std::max(slowest, took);
  }
  CAPTURE(slowest);
  CAPTURE(slow_text);
  CHECK(slowest < kMostSeconds);
  CHECK(judged > kPlans / 5);
  CHECK(refused > kPlans * 3 / 10);
}

}  // namespace

TEST_SUITE("slow") {
  TEST_CASE("check: 10,000 damaged plans end in findings or a reading error soon, first quarter") {
    judge_damaged(4711);
  }
  TEST_CASE("check: 10,000 damaged plans, second quarter") { judge_damaged(4712); }
  TEST_CASE("check: 10,000 damaged plans, third quarter") { judge_damaged(4713); }
  TEST_CASE("check: 10,000 damaged plans, last quarter") { judge_damaged(4714); }
}
