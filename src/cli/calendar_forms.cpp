#include "cli/calendar_forms.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

#include "aftercrop/emit/calendar.h"
#include "aftercrop/emit/page.h"
#include "cli/read_file.h"
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

/// What stands there already: a calendar counts the revisions of its events.
std::string text_before(const std::string& path) {
  if (is_stream(path)) return {};
  load::TextOrReason text = read_file(path);
  return text.text ? std::move(*text.text) : std::string();
}

std::string text_for(const std::string& path, const emit::CalendarInput& input,
                     const CalendarFiles& files) {
  const std::string ending = ending_of(path);
  if (ending == ".csv") return emit::calendar_csv(input, files.plantings);
  if (ending == ".ics") return emit::calendar_ics(input, {files.remind_days, text_before(path)});
  if (ending == ".svg") return emit::calendar_svg(input, files.as_of);
  if (ending == ".html") {
    std::vector<ledger::BedAccount> accounts = files.judgement.accounts;
    ledger::add_load_spans(accounts, files.garden, files.catalogue, files.climates, files.plan);
    const auto reasons = explain::reasons_of_plan(files.garden, files.catalogue, accounts);
    return emit::calendar_html({input, accounts, files.judgement.findings, reasons, files.as_of});
  }
  return emit::calendar_txt(input);
}

}  // namespace

std::optional<std::string> why_no_calendar(const std::string& path) {
  static constexpr std::array<std::string_view, 5> kEndings = {".html", ".svg", ".ics", ".csv",
                                                               ".txt"};
  const std::string ending = ending_of(path);
  if (std::find(kEndings.begin(), kEndings.end(), ending) != kEndings.end()) return {};
  if (ending.empty() && is_stream(path)) return {};
  return fmt::format(
      "{}: its ending names no form; the name of a calendar ends in .html, .svg, .ics, .csv or "
      ".txt",
      path);
}

bool write_calendars(const CalendarFiles& files, const std::vector<std::string>& paths) {
  const auto tasks = emit::tasks(files.garden, files.catalogue, files.plan,
                                 files.judgement.accounts, files.climates);
  const auto order = emit::order_list(files.garden, files.catalogue, files.plan,
                                      files.judgement.accounts, files.climates);
  const emit::CalendarInput input{files.garden, files.catalogue, files.plan,
                                  tasks,        order,           files.bed};
  bool all = true;
  for (const std::string& path : paths) {
    const auto failure = write_output(path, text_for(path, input, files), files.force);
    if (failure) complain(fmt::format("{} is not written: {}", path, *failure));
    all = all && !failure;
  }
  return all;
}

}  // namespace aftercrop::cli
