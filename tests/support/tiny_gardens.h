#pragma once

#include <algorithm>
#include <random>
#include <set>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "aftercrop/load/load.h"

// Random gardens that are small enough to try every plan: two beds, one year, three to five wanted
// crops with one or two weeks of harvest, now and then a cover that may be sown in three weeks.
namespace aftercrop::support {

/// A crop and when a tiny garden may want it (Minneapolis).
struct TinyCrop {
  const char* crop;
  const char* windows[2];
};

inline const std::vector<TinyCrop>& tiny_crops() {
  static const std::vector<TinyCrop> kCrops = {
      {"radish", {"[05-24, 06-14]", "[09-06, 09-26]"}},
      {"spinach", {"[05-31, 06-20]", "[09-06, 09-26]"}},
      {"lettuce-leaf", {"[05-31, 06-27]", "[08-30, 09-19]"}},
      {"broccoli", {"[06-21, 07-18]", "[09-06, 10-03]"}},
      {"pea-snap", {"[06-21, 07-11]", "[06-28, 07-18]"}},
      {"bush-bean", {"[07-19, 08-15]", "[08-16, 09-12]"}},
      {"potato", {"[08-02, 08-29]", "[08-30, 09-26]"}},
      {"tomato", {"[08-02, 08-29]", "[08-23, 09-19]"}},
      {"pepper", {"[08-02, 08-29]", "[08-23, 09-19]"}},
      {"cabbage-late", {"[08-23, 09-19]", "[09-06, 10-03]"}},
      {"kale", {"[07-19, 08-15]", "[09-06, 10-03]"}},
      {"sweet-corn", {"[08-02, 08-29]", "[08-23, 09-19]"}},
      {"squash-winter", {"[08-23, 09-12]", "[09-06, 09-26]"}},
      {"beet", {"[07-05, 07-25]", "[08-30, 09-19]"}},
      {"carrot", {"[08-02, 08-29]", "[09-06, 10-03]"}},
  };
  return kCrops;
}

class TinyGarden {
 public:
  explicit TinyGarden(unsigned seed) : random_(seed) {
    text_ = fmt::format("garden: tiny {}\nsite: {{climate: minneapolis}}\nunits: metric\n", seed);
    text_ += "seasons: {from: 2027-03-01, years: 1}\n";
    beds();
    past();
    wants();
    rules();
  }

  [[nodiscard]] const std::string& text() const { return text_; }

  /// Leaves of the catalogue what the garden knows: short harvests, a cover or two.
  void shrink(catalogue::Catalogue& catalogue) {
    const std::vector<std::string> covers = {"field-pea", "crimson-clover", "oat", "rye",
                                             "mustard-white"};
    const unsigned spare = any(6);
    for (catalogue::Crop& crop : catalogue.crops) {
      crop.harvest_weeks_min = crop.harvest_weeks_max =
          std::min(crop.harvest_weeks_min, short_harvest_);
      if (!crop.cover) continue;
      if (spare >= covers.size() || crop.id != covers[spare]) {
        crop.cover->endings.clear();
        continue;
      }
      const std::size_t window = any(static_cast<unsigned>(crop.cover->windows.size()));
      catalogue::CoverWindow only = crop.cover->windows[window];
      only.to_anchor = only.from_anchor;
      only.to_weeks = only.from_weeks + 2;
      crop.cover->windows = {only};
    }
  }

 private:
  unsigned any(unsigned count) { return static_cast<unsigned>(random_() % count); }

  void beds() {
    text_ += "beds:\n";
    for (const char* bed : {"A", "B"}) {
      text_ += fmt::format(
          "  - {{beds: [{}], length: {} m, width: 1 m, sections: 1, soil: {}, organic_matter: {} "
          "%, "
          "ph: 6.4, watered: yes}}\n",
          bed, 3 + any(4), any(2) == 0 ? "loam" : "sandy loam", 2 + any(4));
    }
  }

  /// Both years before, disease on some of what stood there.
  void past() {
    static const std::vector<std::string> kPast = {"tomato",        "potato",  "cabbage-late",
                                                   "kale",          "carrot",  "spinach",
                                                   "squash-winter", "pea-snap"};
    std::string seen;
    text_ += "history:\n";
    for (const char* bed : {"A", "B"}) {
      for (const int year : {2025, 2026}) {
        const std::string& crop = kPast[any(static_cast<unsigned>(kPast.size()))];
        text_ += fmt::format(
            "  - {{bed: {}, crop: {}, from: {}-06-01, to: {}-09-2{}, ending: harvested-cut}}\n",
            bed, crop, year, year, any(9));
      }
      if (any(10) > 0) {
        static const char* const kSeen[] = {"verticillium-wilt", "clubroot", "rhizoctonia"};
        static const char* const kHow[] = {"trace", "some", "severe"};
        seen += fmt::format("  - {{bed: {}, disease: {}, date: 2026-08-10, severity: {}}}\n", bed,
                            kSeen[any(3)], kHow[any(3)]);
      }
    }
    if (!seen.empty()) text_ += "sightings:\n" + seen;
  }

  void want(const TinyCrop& crop, const char* window) {
    text_ += fmt::format("  - {{crop: {}, amount: {} m2, harvest: {}, weight: {}}}\n", crop.crop,
                         2 + any(5), window, 1 + any(3));
  }

  void wants() {
    std::vector<TinyCrop> left = tiny_crops();
    const unsigned count = 3 + any(3);
    text_ += "wants:\n";
    for (unsigned i = 0; i < count; ++i) {
      const auto at = left.begin() + any(static_cast<unsigned>(left.size()));
      const unsigned first = any(2);
      want(*at, at->windows[first]);
      if (i == 0) {  // two wants of one crop that may share a harvest
        want(*at, any(3) == 0 ? at->windows[1 - first] : at->windows[first]);
      }
      left.erase(at);
    }
  }

  void rules() {
    static const char* const kLegume[] = {"off", "warn", "require"};
    static const int kNitrogen[] = {200, 600, 2000};
    static const int kLeached[] = {500, 2000, 4000};
    text_ += fmt::format("rules: {{legume-before-heavy-feeder: {}}}\n", kLegume[any(3)]);
    text_ += fmt::format("costs: {{nitrogen: {} /kg, leached: {} /kg}}\n", kNitrogen[any(3)],
                         kLeached[any(3)]);
    short_harvest_ = 1 + static_cast<int>(any(2));
  }

  std::mt19937 random_;
  std::string text_;
  int short_harvest_ = 1;
};

}  // namespace aftercrop::support
