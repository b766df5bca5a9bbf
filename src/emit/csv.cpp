#include "emit/csv.h"

#include <string_view>

#include "aftercrop/diagnostic/render.h"

namespace aftercrop::emit {
namespace {

constexpr std::string_view kLineEnd = "\r\n";

/// True for "-0.5": a figure of ours, not a formula.
bool is_number(std::string_view text) {
  return !text.empty() && text.find_first_not_of("-0123456789.e") == std::string_view::npos &&
         text.find_first_of("0123456789") != std::string_view::npos;
}

std::string cell(std::string_view typed) {
  std::string text = diagnostic::printable(typed);
  constexpr std::string_view kFormulaStarts = "=+-@";
  const bool formula = !typed.empty() && !is_number(typed) &&
                       (kFormulaStarts.find(typed.front()) != std::string::npos ||
                        typed.front() == '\t' || typed.front() == '\r');
  if (formula) text.insert(text.begin(), '\'');
  if (text.find_first_of("\",;\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

}  // namespace

std::string csv_line(const std::vector<std::string>& cells) {
  std::string out;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) out += ',';
    out += cell(cells[i]);
  }
  out += kLineEnd;
  return out;
}

}  // namespace aftercrop::emit
