#include "emit/markup.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "aftercrop/diagnostic/render.h"

namespace aftercrop::emit {
namespace {

constexpr std::array<std::string_view, 12> kMonths = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

/// Pairs of backticks as code.
std::string code_markup(const std::string& text) {
  std::string out;
  std::size_t at = 0;
  for (;;) {
    const std::size_t open = text.find('`', at);
    const std::size_t close = open == std::string::npos ? open : text.find('`', open + 1);
    if (close == std::string::npos) return out + text.substr(at);
    out +=
        text.substr(at, open - at) + "<code>" + text.substr(open + 1, close - open - 1) + "</code>";
    at = close + 1;
  }
}

}  // namespace

std::string markup(std::string_view text) {
  std::string out;
  for (const char c : diagnostic::printable(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string prose_markup(std::string_view sentence) {
  constexpr std::size_t kDay = 10;  // 2027-05-24
  std::string spoken;
  for (std::size_t at = 0; at < sentence.size();) {
    const auto day = calendar::Date::parse(sentence.substr(at, kDay));
    if (day) {
      spoken += spoken_date(*day);
      at += kDay;
    } else {
      spoken += sentence[at++];
    }
  }
  return code_markup(markup(spoken));
}

std::string name_markup(std::string_view name) { return "<bdi>" + markup(name) + "</bdi>"; }

std::string coordinate(double value) {
  const double rounded = std::round(value * 10.0) / 10.0 + 0.0;
  std::string text = fmt::format("{:.1f}", rounded);
  if (text.size() > 2 && text.compare(text.size() - 2, 2, ".0") == 0) text.resize(text.size() - 2);
  return text;
}

std::string spoken_day(calendar::Date day) {
  return fmt::format("{} {}", day.day(), kMonths[static_cast<std::size_t>(day.month() - 1)]);
}

std::string spoken_date(calendar::Date day) {
  return fmt::format("{} {}", spoken_day(day), day.year());
}

std::string date_markup(calendar::Date day) {
  return fmt::format("<time datetime=\"{}\">{}</time>", day.text(), spoken_date(day));
}

std::string spoken_span(calendar::Date first, calendar::Date last) {
  const bool one_year = first.year() == last.year();
  return fmt::format("{} to {}", one_year ? spoken_day(first) : spoken_date(first),
                     spoken_date(last));
}

}  // namespace aftercrop::emit
