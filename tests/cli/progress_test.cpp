#include "cli/progress.h"

#include <doctest/doctest.h>

#include <string>

using namespace aftercrop;

namespace {

/// Three lines: 10 of the first (twice 5), 4 of the second, 2 of the third.
struct Ground {
  catalogue::Catalogue catalogue;
  garden::Garden garden;

  Ground() {
    int series = 0;
    for (const char* name : {"tomato", "kale", "garlic"}) {
      catalogue::Crop crop;
      crop.id = name;
      crop.name = name;
      catalogue.crops.push_back(crop);
    }
    const double amounts[] = {5.0, 4.0, 2.0};
    for (std::size_t i = 0; i < 3; ++i) {
      garden::Want want;
      want.crop = catalogue::CropId(i);
      want.amount = amounts[i];
      want.series = series++;
      garden.wants.push_back(want);
      if (i == 0) garden.wants.push_back(want);
    }
  }
  [[nodiscard]] std::string text(const sequencer::Progress& progress, int width) const {
    return cli::progress_text(progress, garden, catalogue, width);
  }
};

sequencer::Progress on_the_way() {
  sequencer::Progress progress;
  progress.seconds = 12.4;
  progress.step = "repair";
  progress.value = 100.0;
  progress.bound = 110.0;
  progress.wants = {{0, 5.0}, {1, 1.0}, {2, 1.0}, {3, 2.0}};
  return progress;
}

}  // namespace

TEST_CASE("progress: value, bound, gap, share of the wants, and what is short, shortest first") {
  // tomato 6 of 10, kale 1 of 4, garlic all: (0.6 + 0.25 + 1) / 3 = 61.7 %, rounded down.
  CHECK(Ground().text(on_the_way(), 120) ==
        "12 s  repair  value 100, at most 110 (gap 10.0 %), wants 61 %; short: kale 25 %, tomato "
        "60 %");
}

TEST_CASE("progress: crops without room are counted, and no line is longer than the terminal") {
  CHECK(Ground().text(on_the_way(), 88) ==
        "12 s  repair  value 100, at most 110 (gap 10.0 %), wants 61 %; short: kale 25 %, 1 more");
  CHECK(Ground().text(on_the_way(), 72) ==
        "12 s  repair  value 100, at most 110 (gap 10.0 %), wants 61 %; 2 short");
  CHECK(Ground().text(on_the_way(), 30) == "12 s  repair  value 100, at mo");
}

TEST_CASE("progress: before there are whole paths nothing is said of wants") {
  sequencer::Progress progress = on_the_way();
  progress.wants.clear();
  progress.bound.reset();
  progress.step = "prices";
  CHECK(Ground().text(progress, 80) == "12 s  prices  value 100");
}
