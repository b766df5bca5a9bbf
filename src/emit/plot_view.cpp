// The beds themselves, to scale: strips with the family's pattern and a label.
#include <fmt/format.h>

#include <algorithm>

#include "emit/markup.h"
#include "emit/page_parts.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

constexpr double kLongest = 320;  // of the longest bed, so that it fits a phone
constexpr double kMostPerMetre = 80;
constexpr double kLetter = 8.4;  // width of a letter of a label, about
constexpr double kLabelLine = 17;
constexpr double kTwoLines = 38;  // a strip this high holds two lines of text

struct Metre {
  double east = 0.0;
  double north = 0.0;
};

const StandView* standing(const BedStands& bed, calendar::Week week) {
  const StandView* found = nullptr;
  for (const StandView& stand : bed.stands) {
    if (garden::weeks_of(*stand.planting).contains(week)) found = &stand;
  }
  return found;
}

double pixels_per_metre(const PageContext& page) {
  double longest = 1.0;
  for (const BedStands& bed : page.beds) {
    const garden::Bed& row = page.bed(bed.bed);
    longest = std::max(longest, row.length.value() * row.sections);
  }
  return std::min(kMostPerMetre, kLongest / longest);
}

/// Draws sections, each at its place.
class Drawer {
 public:
  Drawer(const PageContext& page, calendar::Week week) : page_(&page), week_(week) {}

  /// A section with its top left corner at (x, y); `head` = room above for a label outside.
  void add(std::string& out, const BedStands& bed, const Metre& corner, const Metre& size,
           double head) const {
    const StandView* stand = standing(bed, week_);
    const int letters = static_cast<int>((size.east - 8) / kLetter);
    const std::string name = page_->bed(bed.bed).name;
    const std::string crop =
        stand == nullptr ? "" : short_name(page_->input.catalogue.crop(stand->planting->crop));
    const std::string style =
        stand == nullptr ? "empty" : page_->families.style_class(stand->planting->crop);
    const bool two = size.north >= kTwoLines;
    const double middle = corner.north + (head > 0 ? -4 : size.north / 2 + 4);
    out += fmt::format(
        "<g data-bed=\"{0}\" data-letters=\"{1}\" data-name=\"{2}\"{3}><a href=\"#bed{0}\" "
        "aria-label=\"{2} {4}\"><rect class=\"ground {5}\" x=\"{6}\" y=\"{7}\" width=\"{8}\" "
        "height=\"{9}\"/></a>",
        bed.bed.place(), letters, markup(name), two ? " data-two=\"1\"" : "",
        crop.empty() ? "nothing" : markup(crop), style, coordinate(corner.east),
        coordinate(corner.north), coordinate(size.east), coordinate(size.north));
    const std::string x = coordinate(corner.east + 4);
    if (two) {
      out += fmt::format(
          "<text aria-hidden=\"true\" class=\"plot-name\" x=\"{0}\" y=\"{1}\">{2}</text> "
          "<text aria-hidden=\"true\" class=\"plot-crop\" x=\"{0}\" y=\"{3}\">{4}</text></g>\n",
          x, coordinate(middle - 8), markup(fitted(name, letters)), coordinate(middle + 10),
          markup(fitted(crop, letters)));
    } else {
      out += fmt::format(
          "<text aria-hidden=\"true\" class=\"plot-crop\" x=\"{}\" y=\"{}\">{}</text></g>\n", x,
          coordinate(middle), markup(fitted(name + " " + crop, letters)));
    }
  }

 private:
  const PageContext* page_;
  calendar::Week week_;
};

/// Sections of one bed stand next to each other in the list.
struct WholeBed {
  std::size_t first = 0;
  std::size_t past = 0;
};

std::vector<WholeBed> whole_beds(const PageContext& page) {
  std::vector<WholeBed> all;
  for (std::size_t i = 0; i < page.beds.size(); ++i) {
    const bool same =
        i > 0 && page.bed(page.beds[i].bed).whole == page.bed(page.beds[i - 1].bed).whole;
    if (!same) all.push_back({i, i});
    all.back().past = i + 1;
  }
  return all;
}

std::string bed_in_row(const PageContext& page, const Drawer& drawer, const WholeBed& whole,
                       double scale) {
  const garden::Bed& first = page.bed(page.beds[whole.first].bed);
  const Metre size{scale * first.length.value(), std::max(8.0, scale * first.width.value())};
  const double head = size.north < 20 ? kLabelLine : 0.0;
  const double width = size.east * static_cast<double>(whole.past - whole.first);
  std::string out = fmt::format(
      "<svg class=\"plot\" role=\"group\" aria-label=\"Bed {}\" width=\"{}\" height=\"{}\" "
      "viewBox=\"-1 -1 {} {}\">\n",
      markup(first.whole), coordinate(width + 2), coordinate(size.north + head + 2),
      coordinate(width + 2), coordinate(size.north + head + 2));
  for (std::size_t i = whole.first; i < whole.past; ++i) {
    const double x = size.east * static_cast<double>(i - whole.first);
    drawer.add(out, page.beds[i], {x, head}, size, head);
  }
  return out + "</svg>\n";
}

bool all_lie(const PageContext& page) {
  return std::all_of(page.beds.begin(), page.beds.end(),
                     [&](const BedStands& bed) { return page.bed(bed.bed).lies.has_value(); });
}

/// Beds where the garden file says that they lie: metres east and north of a corner.
std::string beds_as_they_lie(const PageContext& page, const Drawer& drawer, double scale) {
  double east = 0.0;
  double north = 0.0;
  Metre low{1e9, 1e9};
  for (const BedStands& bed : page.beds) {
    const garden::Bed& row = page.bed(bed.bed);
    low = {std::min(low.east, row.lies->first), std::min(low.north, row.lies->second)};
    east = std::max(east, row.lies->first + row.length.value() * row.sections);
    north = std::max(north, row.lies->second + row.width.value());
  }
  const double width = scale * (east - low.east);
  const double height = scale * (north - low.north);
  std::string out = fmt::format(
      "<svg class=\"plot\" role=\"group\" aria-label=\"Beds as they lie\" width=\"{}\" "
      "height=\"{}\" viewBox=\"-1 -1 {} {}\">\n",
      coordinate(width + 2), coordinate(height + 2), coordinate(width + 2), coordinate(height + 2));
  for (const BedStands& bed : page.beds) {
    const garden::Bed& row = page.bed(bed.bed);
    const Metre size{scale * row.length.value(), scale * row.width.value()};
    const double along = size.east * std::max(0, row.section - 1);
    drawer.add(out, bed,
               {scale * (row.lies->first - low.east) + along,
                height - scale * (row.lies->second - low.north) - size.north},
               size, 0.0);
  }
  return out + "</svg>\n";
}

}  // namespace

std::string plot_view(const PageContext& page, calendar::Week week) {
  const Drawer drawer(page, week);
  const double scale = pixels_per_metre(page);
  std::string out = "<div class=\"plots\" id=\"plots\">\n";
  if (all_lie(page)) {
    out += beds_as_they_lie(page, drawer, kMostPerMetre / 2);
  } else {
    for (const WholeBed& whole : whole_beds(page)) {
      out += bed_in_row(page, drawer, whole, scale);
    }
  }
  return out + "</div>\n";
}

}  // namespace aftercrop::emit
