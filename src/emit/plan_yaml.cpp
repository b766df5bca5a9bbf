#include "aftercrop/emit/plan_yaml.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <tuple>

#include "diagnostic/text.h"

namespace aftercrop::emit {
namespace {

using garden::Planting;

bool word_char(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' ||
         c == '_' || c == '-';
}

/// Needs no quotes: letters first, nothing that YAML reads as something else.
bool plain(std::string_view text) {
  if (text.empty() || text.size() > 200 || text.back() == ' ') return false;
  const char first = text.front();
  if (!((first >= 'a' && first <= 'z') || (first >= 'A' && first <= 'Z'))) return false;
  static constexpr std::array<std::string_view, 11> kTaken = {
      "y", "n", "yes", "no", "on", "off", "true", "false", "null", "nan", "inf"};
  std::string lower(text);
  for (char& c : lower) {
    if (!word_char(c) && c != ' ') return false;
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return std::find(kTaken.begin(), kTaken.end(), lower) == kTaken.end();
}

/// Characters that some reader takes for a line break, or that nobody can see.
bool hidden(char32_t code) {
  return code < 0x20 || (code >= 0x7F && code < 0xA0) || (code >= 0x200B && code <= 0x200F) ||
         (code >= 0x2028 && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069) ||
         code == 0xFEFF || code == 0xFFFE || code == 0xFFFF;
}

std::string quoted(std::string_view text) {
  std::string out = "\"";
  auto to = std::back_inserter(out);
  for (std::size_t at = 0; at < text.size();) {
    const diagnostic::Character next = diagnostic::character_at(text, at);
    const auto code = static_cast<unsigned>(next.code);
    if (code == '"' || code == '\\') {
      fmt::format_to(to, "\\{}", static_cast<char>(code));
    } else if (code == '\n') {
      out += "\\n";
    } else if (code == '\t') {
      out += "\\t";
    } else if (hidden(next.code) || (code == 0xFFFD && next.bytes == 1)) {
      fmt::format_to(to, "\\u{:04X}", code);
    } else {
      out.append(text.substr(at, next.bytes));
    }
    at += next.bytes;
  }
  return out + '"';
}

std::string scalar(std::string_view text) { return plain(text) ? std::string(text) : quoted(text); }

std::string_view place_name(garden::Placement at) {
  static constexpr std::array<std::string_view, 4> kNames = {"edge", "in-row", "between", "around"};
  return kNames[static_cast<std::size_t>(at)];
}

std::string partners_text(const Planting& planting, const catalogue::Catalogue& catalogue) {
  std::string out;
  for (const garden::Partner& partner : planting.partners) {
    if (!out.empty()) out += ", ";
    out += fmt::format("{{crop: {}, at: {}}}", scalar(catalogue.crop(partner.crop).id),
                       place_name(partner.at));
  }
  return out;
}

std::string row(const Planting& planting, const garden::Garden& garden,
                const catalogue::Catalogue& catalogue) {
  std::string out =
      fmt::format("  - {{bed: {}, crop: {}, from: {}", scalar(garden.bed(planting.bed).name),
                  scalar(catalogue.crop(planting.crop).id), planting.from.text());
  if (planting.raised) out += fmt::format(", raised: {}", planting.raised->text());
  if (planting.harvest) {
    out += fmt::format(", harvest: [{}, {}]", planting.harvest->first.text(),
                       planting.harvest->past.text());
  }
  out += fmt::format(", to: {}, ending: {}", planting.to.text(), catalogue::name(planting.ending));
  if (planting.resistance == garden::Resistance::Tolerant) out += ", resistance: tolerant";
  if (planting.resistance == garden::Resistance::Resistant) out += ", resistance: resistant";
  if (planting.yield_kg_m2) out += fmt::format(", yield: {} kg/m2", *planting.yield_kg_m2);
  if (!planting.partners.empty()) {
    out += fmt::format(", partners: [{}]", partners_text(planting, catalogue));
  }
  return out + "}\n";
}

}  // namespace

std::string plan_yaml(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                      const garden::Plan& plan) {
  std::vector<Planting> rows = plan.plantings;
  std::stable_sort(rows.begin(), rows.end(), [](const Planting& a, const Planting& b) {
    return std::tie(a.bed, a.from) < std::tie(b.bed, b.from);
  });
  std::string out =
      fmt::format("plan: {}\nmade_by: aftercrop {}\nplantings:",
                  scalar(plan.name.empty() ? garden.name : plan.name), AFTERCROP_VERSION);
  out += rows.empty() ? " []\n" : "\n";
  for (const Planting& planting : rows) out += row(planting, garden, catalogue);
  return out;
}

}  // namespace aftercrop::emit
