#include <fmt/format.h>

#include "aftercrop/diagnostic/render.h"
#include "emit/calendar_rows.h"
#include "emit/fingerprint.h"
#include "emit/ics_text.h"

namespace aftercrop::emit {
namespace {

struct Event {
  std::string uid;
  calendar::Date day;
  std::string summary;
  std::string description;  ///< lines parted by line breaks
  std::string place;
  std::string category;
};

/// Events of one file: each is compared with what an earlier file said of it.
class EventWriter {
 public:
  EventWriter(const CalendarInput& input, const IcsOptions& options)
      : options_(&options),
        stamp_(calendar::monday(input.garden.seasons.first)),
        past_(past_events(options.previous)) {}

  void add(const Event& event, std::string& out) {
    const std::vector<std::string> lines = lines_of(event);
    std::string plain;
    for (const std::string& line : lines) plain += line + '\n';
    int sequence = 0;
    if (const auto old = past_.find(event.uid); old != past_.end()) {
      const bool same = !old->second.cancelled && old->second.lines == plain;
      sequence = old->second.sequence + (same ? 0 : 1);
      past_.erase(old);
    }
    write(lines, sequence, false, out);
  }

  /// What the earlier file had and this one has not, as cancelled.
  void add_cancelled(std::string& out) const {
    for (const auto& [uid, event] : past_) {
      std::vector<std::string> lines;
      for (std::size_t at = 0; at < event.lines.size();) {
        const std::size_t end = event.lines.find('\n', at);
        lines.push_back(event.lines.substr(at, end - at));
        at = end + 1;
      }
      write(lines, event.sequence + (event.cancelled ? 0 : 1), true, out);
    }
  }

 private:
  [[nodiscard]] std::vector<std::string> lines_of(const Event& event) const {
    std::vector<std::string> lines = {"UID:" + event.uid,
                                      "DTSTART;VALUE=DATE:" + event.day.basic_text(),
                                      "DTEND;VALUE=DATE:" + event.day.plus_days(1).basic_text(),
                                      "SUMMARY:" + ics_escaped(event.summary)};
    if (!event.description.empty()) {
      lines.push_back("DESCRIPTION:" + ics_escaped(event.description));
    }
    if (!event.place.empty()) lines.push_back("LOCATION:" + ics_escaped(event.place));
    lines.push_back("CATEGORIES:" + event.category);
    lines.emplace_back("TRANSP:TRANSPARENT");
    if (!options_->remind_days) return lines;
    lines.emplace_back("BEGIN:VALARM");
    lines.emplace_back("ACTION:DISPLAY");
    lines.push_back("TRIGGER:" + trigger(*options_->remind_days));
    lines.push_back("DESCRIPTION:" + ics_escaped(event.summary));
    lines.emplace_back("END:VALARM");
    return lines;
  }

  /// At seven in the morning of the day, or at six in the evening so many days before.
  [[nodiscard]] static std::string trigger(int days) {
    constexpr int kMorning = 7;
    constexpr int kEvening = 18;
    if (days <= 0) return fmt::format("PT{}H", kMorning);
    return fmt::format("-PT{}H", 24 * days - kEvening);
  }

  /// A later SEQUENCE has a later stamp, without a clock.
  void write(const std::vector<std::string>& lines, int sequence, bool cancelled,
             std::string& out) const {
    add_ics_line(out, "BEGIN:VEVENT");
    add_ics_line(out, lines.front());
    add_ics_line(out, fmt::format("DTSTAMP:{}T000000Z", stamp_.plus_days(sequence).basic_text()));
    add_ics_line(out, fmt::format("SEQUENCE:{}", sequence));
    if (cancelled) add_ics_line(out, "STATUS:CANCELLED");
    for (std::size_t i = 1; i < lines.size(); ++i) add_ics_line(out, lines[i]);
    add_ics_line(out, "END:VEVENT");
  }

  const IcsOptions* options_;
  calendar::Date stamp_;
  std::map<std::string, PastEvent> past_;
};

std::string calendar_uid(const CalendarInput& input) {
  return fmt::format("calendar-{:016x}@aftercrop",
                     fingerprint(fmt::format("{}\x1F{}", input.garden.name, input.bed)));
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
  add(fmt::format("Latest safe day: {} ({})", task.latest.text(),
                  diagnostic::printable(task.latest_why)));
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

std::string calendar_ics(const CalendarInput& input, const IcsOptions& options) {
  std::string title = diagnostic::printable(input.garden.name);
  if (!input.bed.empty()) title += ": " + diagnostic::printable(input.bed);
  std::string out;
  add_ics_line(out, "BEGIN:VCALENDAR");
  add_ics_line(out, "VERSION:2.0");
  add_ics_line(out, "PRODID:-//aftercrop//aftercrop " AFTERCROP_VERSION "//EN");
  add_ics_line(out, "CALSCALE:GREGORIAN");
  add_ics_line(out, "METHOD:PUBLISH");
  add_ics_line(out, "UID:" + calendar_uid(input));
  add_ics_line(out, "NAME:" + ics_escaped(title));
  add_ics_line(out, "X-WR-CALNAME:" + ics_escaped(title));
  EventWriter writer(input, options);
  for (const auto& [day, lines] : orders_by_day(input))
    writer.add(event_of(day, lines, input), out);
  for (const Task* task : chosen_tasks(input)) writer.add(event_of(*task, input), out);
  writer.add_cancelled(out);
  add_ics_line(out, "END:VCALENDAR");
  return out;
}

}  // namespace aftercrop::emit
