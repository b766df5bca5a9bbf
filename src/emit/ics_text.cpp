#include "emit/ics_text.h"

#include <charconv>
#include <vector>

namespace aftercrop::emit {
namespace {

constexpr std::size_t kLongestLine = 75;  // octets without the line break, RFC 5545 section 3.1

bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

std::vector<std::string> unfolded(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = text.find("\r\n");
    const std::string_view line = text.substr(0, end);
    const bool more = !line.empty() && line.front() == ' ' && !lines.empty();
    if (more) {
      lines.back() += line.substr(1);
    } else {
      lines.emplace_back(line);
    }
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 2);
  }
  return lines;
}

/// The value of `line` if it is the property `name`; false otherwise.
bool value_of(std::string_view line, std::string_view name, std::string_view& value) {
  if (line.size() <= name.size() || line.substr(0, name.size()) != name) return false;
  if (line[name.size()] != ':') return false;
  value = line.substr(name.size() + 1);
  return true;
}

}  // namespace

std::string ics_escaped(std::string_view text) {
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

void add_ics_line(std::string& out, std::string_view text) {
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

std::map<std::string, PastEvent> past_events(std::string_view calendar) {
  std::map<std::string, PastEvent> events;
  PastEvent event;
  std::string uid;
  for (const std::string& line : unfolded(calendar)) {
    std::string_view value;
    if (line == "BEGIN:VEVENT") {
      event = {};
      uid.clear();
    } else if (line == "END:VEVENT") {
      if (!uid.empty()) events[uid] = event;
      uid.clear();
    } else if (value_of(line, "SEQUENCE", value)) {
      std::from_chars(value.data(), value.data() + value.size(), event.sequence);
    } else if (value_of(line, "STATUS", value)) {
      event.cancelled = value == "CANCELLED";
    } else if (!value_of(line, "DTSTAMP", value)) {
      if (value_of(line, "UID", value)) uid = value;
      event.lines += line + '\n';
    }
  }
  return events;
}

}  // namespace aftercrop::emit
