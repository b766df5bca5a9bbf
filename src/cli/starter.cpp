#include "cli/starter.h"

#include <fmt/format.h>

namespace aftercrop::cli {
namespace {

std::string site_lines(const NewOptions& options) {
  if (options.climate.empty()) {
    return "# When the last frost of spring and the first of autumn usually come where you live,\n"
           "# month and day. Instead of them, the name of a place with your weather will do:\n"
           "# site: {climate: minneapolis}\n"
           "site: {last_frost: 05-01, first_frost: 10-10}\n";
  }
  return fmt::format(
      "# A place with your weather. Your own frost dates, month and day, make it fit better:\n"
      "# site: {{climate: {0}, last_frost: 05-01, first_frost: 10-10}}\n"
      "site: {{climate: {0}}}\n",
      options.climate);
}

constexpr std::string_view kMore =
    "\n"
    "# What you want to eat, by any name you use. Without an amount a crop gets its fair share of\n"
    "# the land; with one it is held to it:  {crop: carrots, amount: AMOUNT, weight: 2}\n"
    "wants: [beets, carrots, green beans, potatoes, kale, onions]\n"
    "\n"
    "# What grew where before, if you remember: breaks between crops of a family start from it.\n"
    "# history:\n"
    "#   - {bed: A, crop: tomato, from: YEAR-05-20, to: YEAR-10-02}\n"
    "\n"
    "# Disease you have seen. It keeps what would fall ill away from that bed.\n"
    "# sightings:\n"
    "#   - {bed: A, disease: clubroot, date: YEAR-08-15, severity: some}\n";

std::string filled(std::string text, std::string_view gap, std::string_view with) {
  for (std::size_t at = text.find(gap); at != std::string::npos; at = text.find(gap, at)) {
    text.replace(at, gap.size(), with);
  }
  return text;
}

std::string more(int last_year, bool us) {
  const std::string dated = filled(std::string(kMore), "YEAR", std::to_string(last_year));
  return filled(dated, "AMOUNT", us ? "20 lb" : "10 kg");
}

}  // namespace

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

std::string starter_garden(const std::string& name, const NewOptions& options) {
  const bool us = options.units == "us";
  std::string text = fmt::format("# yaml-language-server: $schema={}\n", kSchemaName);
  text +=
      "# Your garden, as aftercrop reads it. Change what does not fit, then run `aftercrop` in "
      "this\n"
      "# folder: it writes plan.yaml and calendar.html, and leaves this file alone.\n";
  text += fmt::format("garden: {}\n\n", quoted(name));
  text += site_lines(options);
  text += fmt::format("units: {}\n\n", options.units);
  text +=
      "# One growing season, from one coldest week of the year to the next. More of them in a\n"
      "# row show what a rotation is worth:\n";
  text += fmt::format("# seasons: {{from: {}-03-01, years: 3}}\nseasons: {}\n\n", options.season,
                      options.season);
  text +=
      "# Beds of one kind in one line. Beds that differ get a line each:\n"
      "# beds:\n";
  text += us ? "#   - {beds: [A..D], length: 16 ft, width: 4 ft, soil: silt loam}\n"
             : "#   - {beds: [A..D], length: 5 m, width: 1.2 m, soil: silt loam}\n";
  text += fmt::format("beds: {} of {}\n", options.beds, us ? "8 ft x 4 ft" : "2.4 m x 1.2 m");
  return text + more(options.season - 1, us);
}

}  // namespace aftercrop::cli
