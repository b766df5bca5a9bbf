#include "emit/chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diagnostic/text.h"
#include "emit/amounts.h"
#include "emit/markup.h"

namespace aftercrop::emit {
namespace {

constexpr double kWidth = 360;
constexpr double kLeft = 38;
constexpr double kTop = 20;
constexpr double kPlotHeight = 130;
constexpr double kStripHeight = 12;
constexpr double kLabelHeight = 20;
constexpr double kNameWidth = 7.6;  // of a letter, about
constexpr double kLineHeight = 14;
constexpr double kNear = 0.4;  // so far from a line a place may lie and count as on it

/// Places of weeks and values on the paper.
class Scale {
 public:
  explicit Scale(const TimeChart& chart) : chart_(&chart) {
    double longest = 0;
    for (const ChartLine& line : chart.lines) {
      longest = std::max(longest, kNameWidth * diagnostic::columns_of(line.name));
    }
    right_ = kWidth - 6 - std::min(longest > 0 ? longest + 6 : 0.0, 124.0);
  }

  [[nodiscard]] double x(calendar::Week week) const {
    const double weeks = std::max(1, chart_->weeks.length().count());
    const double at = std::clamp<double>((week - chart_->weeks.first).count(), 0.0, weeks);
    return kLeft + (right_ - kLeft) * at / weeks;
  }

  [[nodiscard]] double y(double value) const {
    const double held = std::clamp(value, chart_->least, chart_->most);
    const double share =
        chart_->doubling ? std::log2(held / chart_->least) / std::log2(chart_->most / chart_->least)
                         : (held - chart_->least) / (chart_->most - chart_->least);
    return kTop + kPlotHeight * (1.0 - share);
  }

  [[nodiscard]] double right() const { return right_; }
  [[nodiscard]] static double bottom() { return kTop + kPlotHeight; }

 private:
  const TimeChart* chart_;
  double right_;
};

void add_value_axis(std::string& out, const TimeChart& chart, const Scale& scale) {
  std::vector<double> ticks;
  if (chart.doubling) {
    for (double value = chart.least; value <= chart.most * 1.001; value *= 4.0) {
      ticks.push_back(value);
    }
  } else {
    const double step = nice_step(chart.most, 4);
    for (double value = 0.0; value <= chart.most + step / 1000.0; value += step) {
      ticks.push_back(value);
    }
  }
  for (const double value : ticks) {
    const std::string y = coordinate(scale.y(value));
    out += fmt::format("<path class=\"grid\" d=\"M{} {}H{}\"/>", coordinate(kLeft), y,
                       coordinate(scale.right()));
    out += fmt::format("<text class=\"tick end\" x=\"{}\" y=\"{}\">{}</text>\n",
                       coordinate(kLeft - 4), coordinate(scale.y(value) + 4), two_digits(value));
  }
  out += fmt::format("<text class=\"unit\" x=\"0\" y=\"11\">{}</text>\n", markup(chart.unit));
}

void add_time_axis(std::string& out, const TimeChart& chart, const Scale& scale, double bottom) {
  const int first = calendar::iso(chart.weeks.first).year;
  const int last = calendar::iso(chart.weeks.past).year;
  const int every = last - first > 6 ? 2 : 1;
  for (int year = first; year <= last; ++year) {
    const auto start = calendar::parse_week(fmt::format("{}-W01", year));
    if (!start || *start < chart.weeks.first || *start >= chart.weeks.past) continue;
    const std::string x = coordinate(scale.x(*start));
    out += fmt::format("<path class=\"grid\" d=\"M{} {}V{}\"/>", x, coordinate(kTop),
                       coordinate(bottom));
    const bool room = scale.x(*start) + 28 <= scale.right() + 6;
    if ((year - first) % every != 0 || !room) continue;
    out += fmt::format("<text class=\"tick\" x=\"{}\" y=\"{}\">{}</text>\n",
                       coordinate(scale.x(*start) + 2), coordinate(bottom + 14), year);
  }
}

struct Place {
  double x = 0.0;
  double y = 0.0;
};

/// Leaves out the places between `first` and `last` that a straight line passes near enough.
void keep_bends(const std::vector<Place>& places, std::size_t first, std::size_t last,
                std::vector<char>& kept) {
  const double run = places[last].x - places[first].x;
  std::size_t farthest = first;
  double most = kNear;
  for (std::size_t i = first + 1; i < last; ++i) {
    const double along = run > 0.0 ? (places[i].x - places[first].x) / run : 0.0;
    const double straight = places[first].y + along * (places[last].y - places[first].y);
    if (std::abs(places[i].y - straight) <= most) continue;
    most = std::abs(places[i].y - straight);
    farthest = i;
  }
  if (farthest == first) return;
  kept[farthest] = 1;
  keep_bends(places, first, farthest, kept);
  keep_bends(places, farthest, last, kept);
}

/// The line on paper, by its bends alone.
std::vector<Place> bends(const std::vector<ChartPoint>& points, const Scale& scale) {
  std::vector<Place> places;
  for (const ChartPoint& point : points)
    places.push_back({scale.x(point.week), scale.y(point.value)});
  if (places.empty()) return places;
  std::vector<char> kept(places.size(), 0);
  kept.front() = kept.back() = 1;
  keep_bends(places, 0, places.size() - 1, kept);
  std::vector<Place> out;
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (kept[i] != 0) out.push_back(places[i]);
  }
  return out;
}

std::string path_of(const std::vector<Place>& places) {
  std::string path;
  for (const Place& place : places) {
    path +=
        fmt::format("{}{} {}", path.empty() ? "M" : "L", coordinate(place.x), coordinate(place.y));
  }
  return path;
}

void add_range(std::string& out, const ChartLine& line, const Scale& scale) {
  if (line.low.empty() || line.high.empty()) return;
  std::vector<Place> outline = bends(line.low, scale);
  const std::vector<Place> back = bends(line.high, scale);
  outline.insert(outline.end(), back.rbegin(), back.rend());
  out += fmt::format("<path class=\"range {}\" d=\"{}Z\"/>\n", line.style, path_of(outline));
}

/// The names at the lines' ends, pushed apart where they would lie on each other.
void add_names(std::string& out, const TimeChart& chart, const Scale& scale) {
  struct Name {
    double y;
    const ChartLine* line;
  };
  std::vector<Name> names;
  for (const ChartLine& line : chart.lines) {
    if (!line.name.empty() && !line.points.empty()) {
      names.push_back({scale.y(line.points.back().value) + 4, &line});
    }
  }
  std::stable_sort(names.begin(), names.end(),
                   [](const Name& a, const Name& b) { return a.y < b.y; });
  double free = kTop;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const double rest = kLineHeight * static_cast<double>(names.size() - 1 - i);
    names[i].y = std::max(free, std::min(names[i].y, Scale::bottom() + 4 - rest));
    free = names[i].y + kLineHeight;
    out += fmt::format("<text class=\"name {}\" x=\"{}\" y=\"{}\">{}</text>\n",
                       names[i].line->style, coordinate(scale.right() + 6), coordinate(names[i].y),
                       markup(names[i].line->name));
  }
}

void add_limit(std::string& out, const TimeChart& chart, const Scale& scale) {
  if (chart.limit <= 0.0) return;
  const double y = scale.y(chart.limit);
  out += fmt::format("<rect class=\"zone\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
                     coordinate(kLeft), coordinate(kTop), coordinate(scale.right() - kLeft),
                     coordinate(y - kTop));
  out += fmt::format("<path class=\"limit\" d=\"M{} {}H{}\"/>", coordinate(kLeft), coordinate(y),
                     coordinate(scale.right()));
  out += fmt::format("<text class=\"tick\" x=\"{}\" y=\"{}\">{}</text>\n", coordinate(kLeft + 4),
                     coordinate(kTop + 12), markup(chart.limit_name));
}

void add_strips(std::string& out, const TimeChart& chart, const Scale& scale) {
  for (const ChartStrip& strip : chart.strips) {
    const double x = scale.x(strip.weeks.first);
    const double width = scale.x(strip.weeks.past) - x;
    if (width <= 0) continue;
    out += fmt::format("<rect class=\"strip {}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
                       strip.style, coordinate(x), coordinate(Scale::bottom() + 4),
                       coordinate(width), coordinate(kStripHeight));
  }
  out += '\n';
}

void add_mark(std::string& out, const ChartMark& mark, const Scale& scale) {
  const double x = scale.x(mark.at.week);
  const double y = scale.y(mark.at.value);
  out += fmt::format("<path class=\"mark {}\" d=\"M{} {}l-5 -9h10z\"/>", mark.style, coordinate(x),
                     coordinate(y - 2));
}

}  // namespace

double nice_step(double most, int count) {
  if (!(most > 0.0)) return 1.0;
  const double least = most / std::max(1, count);
  const double unit = std::pow(10.0, std::floor(std::log10(least)));
  for (const double step : {1.0, 2.0, 5.0}) {
    if (step * unit >= least * (1.0 - 1e-9)) return step * unit;
  }
  return 10.0 * unit;
}

std::string time_chart(const TimeChart& chart) {
  const Scale scale(chart);
  const double strips = chart.strips.empty() ? 0.0 : kStripHeight + 6;
  const double bottom = Scale::bottom() + strips;
  std::string out =
      fmt::format("<svg class=\"chart\" role=\"img\" viewBox=\"0 0 {} {}\" aria-label=\"{}\">\n",
                  coordinate(kWidth), coordinate(bottom + kLabelHeight),
                  markup(chart.title + ". " + chart.summary));
  add_limit(out, chart, scale);
  add_value_axis(out, chart, scale);
  add_time_axis(out, chart, scale, bottom);
  for (const ChartLine& line : chart.lines) add_range(out, line, scale);
  for (const ChartLine& line : chart.lines) {
    out += fmt::format("<path class=\"line {}\" d=\"{}\"/>\n", line.style,
                       path_of(bends(line.points, scale)));
  }
  for (const ChartMark& mark : chart.marks) add_mark(out, mark, scale);
  add_strips(out, chart, scale);
  add_names(out, chart, scale);
  return out + "</svg>\n";
}

std::string range_bar(double value, double low, double high, double most) {
  constexpr double kBar = 120;
  const auto place = [&](double amount) {
    return coordinate(most > 0.0 ? kBar * std::clamp(amount / most, 0.0, 1.0) : 0.0);
  };
  std::string out = fmt::format(
      "<svg class=\"bar\" viewBox=\"0 0 120 16\" aria-hidden=\"true\">"
      "<rect class=\"amount\" y=\"3\" width=\"{}\" height=\"10\"/>",
      place(value));
  if (high > low) {
    out += fmt::format("<path class=\"spread\" d=\"M{0} 8H{1}M{0} 4V12M{1} 4V12\"/>", place(low),
                       place(high));
  }
  return out + "</svg>";
}

}  // namespace aftercrop::emit
