#include <fmt/format.h>

#include "aftercrop/diagnostic/render.h"
#include "emit/calendar_rows.h"

namespace aftercrop::emit {
namespace {

constexpr std::size_t kLongestLine = 75;  // octets without the line break, RFC 5545 section 3.1

/// A value of type TEXT: RFC 5545 section 3.3.11. Line breaks are ours alone.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\n') {
      out += "\\n";
      continue;
    }
    if (c == '\\' || c == ';' || c == ',') out += '\\';
    out += c;
  }
  return out;
}

bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

/// A content line, folded without cutting a character.
void add_line(std::string& out, std::string_view text) {
  std::size_t room = kLongestLine;
  while (text.size() > room) {
    std::size_t cut = room;
    while (cut > 1 && continues_character(text[cut])) --cut;
    out.append(text.substr(0, cut));
    out += "\r\n ";
    text.remove_prefix(cut);
    room = kLongestLine - 1;
  }
  out.append(text);
  out += "\r\n";
}

struct Event {
  std::string uid;
  calendar::Date day;
  std::string summary;
  std::string description;  ///< lines parted by line breaks
  std::string place;
  std::string category;
};

void add_event(std::string& out, const Event& event, const std::string& stamp) {
  add_line(out, "BEGIN:VEVENT");
  add_line(out, "UID:" + event.uid);
  add_line(out, "DTSTAMP:" + stamp);
  add_line(out, "SEQUENCE:0");
  add_line(out, "DTSTART;VALUE=DATE:" + event.day.basic_text());
  add_line(out, "DTEND;VALUE=DATE:" + event.day.plus_days(1).basic_text());
  add_line(out, "SUMMARY:" + escaped(event.summary));
  if (!event.description.empty()) add_line(out, "DESCRIPTION:" + escaped(event.description));
  if (!event.place.empty()) add_line(out, "LOCATION:" + escaped(event.place));
  add_line(out, "CATEGORIES:" + event.category);
  add_line(out, "TRANSP:TRANSPARENT");
  add_line(out, "END:VEVENT");
}

Event event_of(const Task& task, const CalendarInput& input) {
  Event event;
  event.uid = task.uid;
  event.day = task.date;
  event.place = diagnostic::printable(input.garden.bed(task.bed).name);
  event.summary = fmt::format("{}: {}", event.place, diagnostic::printable(task.title));
  event.description = diagnostic::printable(task.detail);
  const auto add = [&](const std::string& more) {
    if (!event.description.empty()) event.description += '\n';
    event.description += more;
  };
  if (task.latest) add(fmt::format("Latest safe day: {}", task.latest->text()));
  if (!task.caution.empty()) add("Caution: " + diagnostic::printable(task.caution));
  event.category = std::string(name(task.kind));
  return event;
}

Event event_of(calendar::Date day, const std::vector<const OrderLine*>& lines,
               const CalendarInput& input) {
  Event event;
  event.uid = order_uid(input.garden, day);
  event.day = day;
  event.summary = "Have at hand from this week on: seed, plants and feeds";
  event.category = std::string(name(TaskKind::Order));
  for (const OrderLine* line : lines) {
    if (!event.description.empty()) event.description += '\n';
    event.description += diagnostic::printable(order_text(*line, input.garden.units));
  }
  return event;
}

}  // namespace

std::string calendar_ics(const CalendarInput& input) {
  const std::string title = escaped(diagnostic::printable(input.garden.name));
  const std::string stamp = calendar::monday(input.garden.seasons.first).basic_text() + "T000000Z";
  std::string out;
  add_line(out, "BEGIN:VCALENDAR");
  add_line(out, "VERSION:2.0");
  add_line(out, "PRODID:-//aftercrop//aftercrop " AFTERCROP_VERSION "//EN");
  add_line(out, "CALSCALE:GREGORIAN");
  add_line(out, "NAME:" + title);
  add_line(out, "X-WR-CALNAME:" + title);
  for (const auto& [day, lines] : orders_by_day(input)) {
    add_event(out, event_of(day, lines, input), stamp);
  }
  for (const Task* task : chosen_tasks(input)) add_event(out, event_of(*task, input), stamp);
  add_line(out, "END:VCALENDAR");
  return out;
}

}  // namespace aftercrop::emit
