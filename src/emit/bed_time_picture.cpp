#include "emit/bed_time_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "diagnostic/text.h"
#include "emit/markup.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

using calendar::Date;
using calendar::Week;

constexpr double kRow = 30;
constexpr double kBar = 26;
constexpr double kCoverBar = 20;
constexpr double kBetweenBeds = 8;
constexpr int kRoomForYear = 35;  // days that the label of a year takes, about
constexpr double kLetter = 8.7;   // width of a letter of a label, about

/// Where a day lies: weeks are whole, days count their share.
double x_of(const Picture& picture, Date day) {
  const int days = calendar::days_between(calendar::monday(picture.weeks.first), day);
  return std::clamp(kWeekWidth * days / 7.0, 0.0, picture_width(picture));
}

/// Tops of the rows, and the whole height at the end.
std::vector<double> row_tops(const Picture& picture) {
  std::vector<double> tops;
  double y = kPictureTop;
  std::string whole;
  for (const BedStands& bed : picture.beds) {
    const std::string& of = picture.input.garden.bed(bed.bed).whole;
    if (!tops.empty() && of != whole) y += kBetweenBeds;
    whole = of;
    tops.push_back(y);
    y += kRow;
  }
  tops.push_back(y);
  return tops;
}

void add_months(std::string& out, const Picture& picture) {
  static constexpr std::array<const char*, 12> kNames = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                         "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const Date first = calendar::monday(picture.weeks.first);
  const Date past = calendar::monday(picture.weeks.past);
  const std::string bottom = coordinate(picture_height(picture));
  const bool new_year_near = first.plus_days(kRoomForYear).year() != first.year() ||
                             (first.month() == 1 && first.day() == 1);
  if (!new_year_near) {
    out += fmt::format("<text class=\"year\" data-d=\"{}\" x=\"2\" y=\"17\">{}</text>\n",
                       first.serial(), first.year());
  }
  for (Date day = first; day < past; day = day.plus_days(1)) {
    if (day.day() != 1) continue;
    const double x = x_of(picture, day);
    const bool january = day.month() == 1;
    out += fmt::format("<path class=\"{}\" data-d=\"{}\" d=\"M{} {}V{}\"/>",
                       january ? "yearline" : "monthline", day.serial(), coordinate(x),
                       january ? "4" : "24", bottom);
    out +=
        fmt::format("<text class=\"month\" data-d=\"{}\" x=\"{}\" y=\"39\">{}</text>", day.serial(),
                    coordinate(x + 3), kNames[static_cast<std::size_t>(day.month() - 1)]);
    if (january) {
      out += fmt::format("<text class=\"year\" data-d=\"{}\" x=\"{}\" y=\"17\">{}</text>",
                         day.serial(), coordinate(x + 5), day.year());
    }
    out += '\n';
  }
}

struct Span {
  double x;
  double width;
};

Span span_of(const Picture& picture, Date first, Date past) {
  const double x = x_of(picture, first);
  return {x, std::max(2.0, x_of(picture, past) - x)};
}

void add_bar(std::string& out, const Picture& picture, const StandView& stand, double top) {
  const garden::Planting& planting = *stand.planting;
  const catalogue::Crop& crop = picture.input.catalogue.crop(planting.crop);
  const Span box = span_of(picture, planting.from, planting.to);
  const double height = crop.is_cover() ? kCoverBar : kBar;
  const double y = top + kRow - 2 - height;
  out += fmt::format("<rect class=\"box {}{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
                     picture.families.style_class(planting.crop), crop.is_cover() ? " cover" : "",
                     coordinate(box.x), coordinate(y), coordinate(box.width), coordinate(height));
  const bool picking = planting.harvest &&
                       planting.harvest->first < calendar::monday(picture.weeks.past) &&
                       planting.harvest->past > calendar::monday(picture.weeks.first);
  if (picking) {
    const Span picked = span_of(picture, planting.harvest->first, planting.harvest->past);
    out += fmt::format("<rect class=\"picked\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"4\"/>",
                       coordinate(picked.x), coordinate(y + height - 4), coordinate(picked.width));
  }
}

void add_label(std::string& out, const Picture& picture, const StandView& stand, double top) {
  const garden::Planting& planting = *stand.planting;
  const catalogue::Crop& crop = picture.input.catalogue.crop(planting.crop);
  const Span box = span_of(picture, planting.from, planting.to);
  const std::string label = fitted(short_name(crop), static_cast<int>((box.width - 7) / kLetter));
  if (label.empty()) return;
  const double height = crop.is_cover() ? kCoverBar : kBar;
  out += fmt::format("<text aria-hidden=\"true\" class=\"label\" x=\"{}\" y=\"{}\">{}</text>",
                     coordinate(box.x + 4), coordinate(top + kRow - 2 - height / 2 + 4),
                     markup(label));
}

bool shows(const Picture& picture, const garden::Planting& planting) {
  return planting.from < calendar::monday(picture.weeks.past) &&
         planting.to > calendar::monday(picture.weeks.first);
}

/// Days and names for what the page does with its bars.
std::string stand_data(const Picture& picture, const StandView& stand) {
  const garden::Planting& planting = *stand.planting;
  std::string data =
      fmt::format(" data-bed=\"{}\" data-from=\"{}\" data-to=\"{}\"", stand.planting->bed.place(),
                  planting.from.serial(), planting.to.serial());
  if (planting.harvest) {
    data += fmt::format(" data-picked=\"{} {}\"", planting.harvest->first.serial(),
                        planting.harvest->past.serial());
  }
  return data + fmt::format(" data-crop=\"{}\"",
                            markup(short_name(picture.input.catalogue.crop(planting.crop))));
}

}  // namespace

std::string fitted(std::string_view text, int columns) {
  if (diagnostic::columns_of(text) <= columns) return std::string(text);
  std::string out;
  int used = 1;
  for (std::size_t at = 0; at < text.size();) {
    const diagnostic::Character next = diagnostic::character_at(text, at);
    used += diagnostic::columns_of(next.code);
    if (used > columns) break;
    out.append(text.substr(at, next.bytes));
    at += next.bytes;
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return diagnostic::columns_of(out) < 3 ? std::string() : out + "\u2026";
}

calendar::WeekSpan picture_weeks(const garden::Garden& garden, const std::vector<BedStands>& beds) {
  calendar::WeekSpan weeks = garden.seasons;
  for (const BedStands& bed : beds) {
    for (const StandView& stand : bed.stands) {
      weeks.past = std::max(weeks.past, garden::weeks_of(*stand.planting).past);
    }
  }
  return weeks;
}

double picture_width(const Picture& picture) { return kWeekWidth * picture.weeks.length().count(); }

double picture_height(const Picture& picture) { return row_tops(picture).back() + 4; }

std::size_t rows_that_fit(const Picture& picture, std::size_t first, double height) {
  const std::vector<double> tops = row_tops(picture);
  std::size_t past = first + 1;
  while (past + 1 < tops.size() && kPictureTop + tops[past + 1] - tops[first] <= height) ++past;
  if (past == picture.beds.size()) return past - first;
  const auto whole = [&](std::size_t row) -> const std::string& {
    return picture.input.garden.bed(picture.beds[row].bed).whole;
  };
  std::size_t cut = past;
  while (cut > first + 1 && whole(cut) == whole(cut - 1)) --cut;
  const bool bed_starts = cut > first + 1 || whole(cut) != whole(first);
  return (bed_starts ? cut : past) - first;
}

std::string stand_title(const CalendarInput& input, const StandView& stand) {
  const garden::Planting& planting = *stand.planting;
  return fmt::format("{}: {}, {}", input.garden.bed(planting.bed).name,
                     short_name(input.catalogue.crop(planting.crop)),
                     spoken_span(planting.from, planting.to.plus_days(-1)));
}

std::string picture_body(const Picture& picture, Bars bars) {
  const std::vector<double> tops = row_tops(picture);
  std::string out;
  for (std::size_t i = 0; i < picture.beds.size(); ++i) {
    out += fmt::format("<path class=\"floor\" d=\"M0 {0}H{1}\"/>", coordinate(tops[i] + kRow - 1),
                       coordinate(picture_width(picture)));
  }
  add_months(out, picture);
  for (std::size_t i = 0; i < picture.beds.size(); ++i) {
    for (const StandView& stand : picture.beds[i].stands) {
      if (!shows(picture, *stand.planting)) continue;
      const std::string title = markup(stand_title(picture.input, stand));
      if (bars == Bars::Linked) {
        out += fmt::format("<a class=\"stand\" href=\"#s{}\" aria-label=\"{}\"{}>", stand.number,
                           title, stand_data(picture, stand));
      }
      if (bars == Bars::Titled) out += fmt::format("<g><title>{}</title>", title);
      add_bar(out, picture, stand, tops[i]);
      if (bars == Bars::Linked) out += "</a>";
      add_label(out, picture, stand, tops[i]);
      if (bars == Bars::Titled) out += "</g>";
      out += '\n';
    }
  }
  return out;
}

std::string picture_names(const Picture& picture) {
  const std::vector<double> tops = row_tops(picture);
  std::string out;
  for (std::size_t i = 0; i < picture.beds.size(); ++i) {
    out += fmt::format("<text class=\"row\" x=\"2\" y=\"{}\">{}</text>\n",
                       coordinate(tops[i] + kRow / 2 + 4),
                       markup(fitted(picture.input.garden.bed(picture.beds[i].bed).name, 9)));
  }
  return out;
}

std::string day_line(const Picture& picture, Date day) {
  const std::string x = coordinate(x_of(picture, day));
  return fmt::format("<path class=\"today\" data-d=\"{}\" d=\"M{} 24V{}\"/>\n", day.serial(), x,
                     coordinate(picture_height(picture)));
}

}  // namespace aftercrop::emit
