#pragma once

#include <map>
#include <string>
#include <string_view>

// Content lines of RFC 5545, and what an earlier file held.
namespace aftercrop::emit {

/// A value of type TEXT (section 3.3.11). Line breaks are ours alone.
[[nodiscard]] std::string ics_escaped(std::string_view text);

/// Appends a content line, folded at 75 octets without cutting a character, with CRLF.
void add_ics_line(std::string& out, std::string_view text);

/// An event of an earlier file.
struct PastEvent {
  int sequence = 0;
  bool cancelled = false;
  std::string lines;  ///< unfolded, without SEQUENCE, DTSTAMP and STATUS; LF after each
};

/// The events of a calendar that we wrote, by UID; of any other text what looks like one.
[[nodiscard]] std::map<std::string, PastEvent> past_events(std::string_view calendar);

}  // namespace aftercrop::emit
