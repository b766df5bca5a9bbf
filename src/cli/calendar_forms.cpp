#include "cli/calendar_forms.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "aftercrop/emit/calendar.h"
#include "cli/terminal.h"
#include "cli/write_file.h"

namespace aftercrop::cli {
namespace {

std::string ending_of(const std::string& path) {
  const std::size_t dot = path.find_last_of("./");
  if (dot == std::string::npos || path[dot] != '.') return {};
  std::string ending = path.substr(dot);
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return ending;
}

std::string text_for(const std::string& path, const emit::CalendarInput& input, bool plantings) {
  const std::string ending = ending_of(path);
  if (ending == ".csv") return emit::calendar_csv(input, plantings);
  if (ending == ".ics") return emit::calendar_ics(input);
  return emit::calendar_txt(input);
}

}  // namespace

std::optional<std::string> why_no_calendar(const std::string& path) {
  const std::string ending = ending_of(path);
  if (ending == ".txt" || ending == ".csv" || ending == ".ics") return {};
  if (ending.empty() && is_stream(path)) return {};
  const bool later = ending == ".html" || ending == ".svg";
  return fmt::format("{}: {}; the name of a calendar ends in .txt, .csv or .ics", path,
                     later ? "this form cannot be written yet" : "its ending names no form");
}

bool write_calendars(const CalendarFiles& files, const std::vector<std::string>& paths) {
  const auto tasks =
      emit::tasks(files.garden, files.catalogue, files.plan, files.accounts, files.climates);
  const auto order =
      emit::order_list(files.garden, files.catalogue, files.plan, files.accounts, files.climates);
  const emit::CalendarInput input{files.garden, files.catalogue, files.plan,
                                  tasks,        order,           files.bed};
  bool all = true;
  for (const std::string& path : paths) {
    const auto failure = write_output(path, text_for(path, input, files.plantings), files.force);
    if (failure) complain(fmt::format("{} is not written: {}", path, *failure));
    all = all && !failure;
  }
  return all;
}

}  // namespace aftercrop::cli
