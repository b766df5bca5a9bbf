#include <fmt/format.h>

#include <algorithm>

#include "emit/bed_time_picture.h"
#include "emit/markup.h"
#include "emit/page/page_text.h"

namespace aftercrop::emit {
namespace {

constexpr double kMargin = 16;
constexpr double kNames = 70;
constexpr double kTitle = 34;
constexpr double kLegendRow = 26;
constexpr double kLegendColumn = 190;

/// The families side by side, in as many rows as it takes. Returns the height.
double add_legend(std::string& out, const FamilyStyles& families, double top, double width) {
  const int columns = std::max(1, static_cast<int>(width / kLegendColumn));
  int place = 0;
  const auto add = [&](const std::string& sample, const std::string& name) {
    const double x = kMargin + kLegendColumn * (place % columns);
    const double y = top + kLegendRow * (place / columns);
    out += fmt::format(
        "<g transform=\"translate({} {})\">{}<text class=\"key\" x=\"40\" "
        "y=\"15\">{}</text></g>\n",
        coordinate(x), coordinate(y), sample, markup(name));
    ++place;
  };
  for (std::size_t i = 0; i < families.families().size(); ++i) {
    add(fmt::format("<rect class=\"box f{}\" width=\"34\" height=\"20\"/>", i + 1),
        families.name(families.families()[i]));
  }
  add("<rect class=\"box f0 cover\" y=\"6\" width=\"34\" height=\"14\"/>", "low bar: a cover");
  add("<rect class=\"box f0\" width=\"34\" height=\"20\"/>"
      "<rect class=\"picked\" y=\"16\" width=\"34\" height=\"4\"/>",
      "underlined: harvest");
  return kLegendRow * ((place + columns - 1) / columns);
}

}  // namespace

std::string calendar_svg(const CalendarInput& input, const std::optional<calendar::Date>& as_of) {
  const calendar::Date since = calendar::monday(input.garden.seasons.first);
  const std::vector<BedStands> beds = stands_by_bed(input, {}, since);
  const FamilyStyles families(input.catalogue, plantings_in(beds));
  const Picture picture{input, beds, families, picture_weeks(input.garden, beds)};
  const double width = 2 * kMargin + kNames + picture_width(picture);
  std::string legend;
  const double legend_top = kTitle + picture_height(picture) + 14;
  const double height =
      legend_top + add_legend(legend, families, legend_top, width - 2 * kMargin) + kMargin;
  const std::string title = input.garden.name + ": what stands where, and when";
  std::string out = fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"alone\" width=\"{0}\" height=\"{1}\" "
      "viewBox=\"0 0 {0} {1}\" role=\"img\" aria-labelledby=\"title\">\n<title "
      "id=\"title\">{2}</title>\n<style>\n",
      coordinate(width), coordinate(height), markup(title));
  out += picture_css();
  out += families.rules() + "</style>\n<defs>\n" + families.patterns() + "</defs>\n";
  out += fmt::format("<rect class=\"paper\" width=\"{}\" height=\"{}\"/>\n", coordinate(width),
                     coordinate(height));
  out += fmt::format("<text class=\"title\" x=\"{}\" y=\"26\">{}</text>\n", coordinate(kMargin),
                     markup(title));
  out += fmt::format("<g transform=\"translate({} {})\">\n{}</g>\n", coordinate(kMargin),
                     coordinate(kTitle), picture_names(picture));
  out += fmt::format("<g transform=\"translate({} {})\">\n{}", coordinate(kMargin + kNames),
                     coordinate(kTitle), picture_body(picture, Bars::Titled));
  if (as_of) out += day_line(picture, *as_of);
  return out + "</g>\n" + legend + "</svg>\n";
}

}  // namespace aftercrop::emit
