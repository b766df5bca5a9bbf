#pragma once

#include <string>
#include <vector>

#include "aftercrop/calendar/week.h"

// Small charts as SVG: axes with units, a text alternative, style by class names (picture.css).
namespace aftercrop::emit {

/// A value at the start of a week.
struct ChartPoint {
  calendar::Week week;
  double value = 0.0;
};

struct ChartLine {
  std::string name;   ///< as typed, written at the line's end; empty = no name
  std::string style;  ///< style class
  std::vector<ChartPoint> points;
  std::vector<ChartPoint> low = {};   ///< lower edge of its range; may be empty
  std::vector<ChartPoint> high = {};  ///< upper edge
};

/// A span of time drawn under the axis: what stood there.
struct ChartStrip {
  calendar::WeekSpan weeks;
  std::string style;
};

/// A point with a sign of its own: a dose, a sighting.
struct ChartMark {
  ChartPoint at;
  std::string style;
};

struct TimeChart {
  std::string title;    ///< what it shows, with its unit
  std::string summary;  ///< the same in words, for those who do not see it
  std::string unit;     ///< written on the axis
  calendar::WeekSpan weeks;
  bool doubling = false;  ///< each step of the axis doubles
  double least = 0.0;     ///< lowest value shown; above 0 on a doubling axis
  double most = 1.0;
  double limit = 0.0;  ///< a line across with the zone above it shaded; 0 = none
  std::string limit_name;
  std::vector<ChartLine> lines;
  std::vector<ChartMark> marks;
  std::vector<ChartStrip> strips;
};

/// A whole `<svg>` element, 360 wide, that scales with its place.
[[nodiscard]] std::string time_chart(const TimeChart& chart);

/// A bar with its range for a row of a table, from 0 to `most`; the numbers stand beside it.
[[nodiscard]] std::string range_bar(double value, double low, double high, double most);

/// Steps of an axis from 0: 1, 2 or 5 times a power of ten, at most `count` of them up to `most`.
[[nodiscard]] double nice_step(double most, int count);

}  // namespace aftercrop::emit
