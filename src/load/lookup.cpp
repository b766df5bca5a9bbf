#include "load/lookup.h"

#include <fmt/format.h>

#include "aftercrop/load/names.h"

namespace aftercrop::load {
namespace {

using catalogue::CropId;
using diagnostic::Diagnostics;
using garden::BedId;

constexpr int kLongestRange = 2000;
constexpr int kMostUnknownCrops = 1000;
constexpr std::size_t kMostListed = 12;
constexpr std::size_t kShortName = 2;

struct NumberedName {
  std::string stem;
  int number;
};

std::optional<NumberedName> numbered(std::string_view name) {
  std::size_t digits = name.size();
  while (digits > 0 && name[digits - 1] >= '0' && name[digits - 1] <= '9') --digits;
  const auto number = plain_whole(name.substr(digits));
  if (!number) return {};
  return NumberedName{std::string(name.substr(0, digits)), *number};
}

bool is_letter(std::string_view text) {
  return text.size() == 1 &&
         ((text[0] >= 'A' && text[0] <= 'Z') || (text[0] >= 'a' && text[0] <= 'z'));
}

}  // namespace

std::vector<std::string> expand_range(std::string_view text) {
  const std::size_t dots = text.find("..");
  if (dots == std::string_view::npos) return {std::string(text)};
  const std::string_view first = text.substr(0, dots);
  const std::string_view last = text.substr(dots + 2);
  std::vector<std::string> names;
  if (is_letter(first) && is_letter(last)) {
    for (char c = first[0]; c <= last[0]; ++c) names.emplace_back(1, c);
    return names;
  }
  const auto from = numbered(first);
  auto to = numbered(last);
  if (!from || !to) return {};
  if (to->stem.empty()) to->stem = from->stem;
  if (from->stem != to->stem || to->number - from->number > kLongestRange) return {};
  for (int i = from->number; i <= to->number; ++i) names.push_back(from->stem + std::to_string(i));
  return names;
}

void Lookup::add_beds(const std::vector<garden::Bed>& beds) {
  for (std::size_t i = 0; i < beds.size(); ++i) {
    const garden::Bed& bed = beds[i];
    const BedId id(i);
    all_.push_back(id);
    beds_[bed.name].push_back(id);
    if (bed.whole != bed.name) beds_[bed.whole].push_back(id);
  }
  for (const auto& [name, ids] : beds_) bed_names_.push_back(name);
  for (const garden::Bed& bed : beds) {
    const bool again = !whole_names_.empty() && whole_names_.back() == bed.whole;
    if (!again) whole_names_.push_back(bed.whole);
  }
}

std::optional<CropId> Lookup::crop(const Node& node, Diagnostics& out) {
  const auto text = read_text(node, "a crop", out);
  if (!text) return {};
  const auto known = crops_.find(*text);
  if (known != crops_.end() && known->second) return known->second;
  if (unknown_crops_ >= kMostUnknownCrops) return {};
  const auto found = find_crop(*text, *catalogue_, node.source, out);
  if (!found) ++unknown_crops_;
  crops_[*text] = found;
  return found;
}

/// Short names are all near each other: there the beds are listed instead of a guess.
void Lookup::report_bed(const std::string& name, const Node& node, Diagnostics& out) const {
  auto near = did_you_mean(name, bed_names_);
  const bool guess =
      near && (name.size() > kShortName || canonical_word(name) == canonical_word(*near));
  if (!guess) near.reset();
  const bool many = whole_names_.size() > kMostListed;
  const std::vector<std::string> listed(
      whole_names_.begin(),
      whole_names_.begin() + static_cast<int>(many ? kMostListed : whole_names_.size()));
  diagnostic::Diagnostic& told = out.error(
      "unknown-bed", fmt::format("there is no bed \"{}\" in this garden", name), node.source,
      near ? fmt::format("did you mean \"{}\"?", *near)
           : fmt::format(
                 "its beds are {}{}; a section is written N1.2, a range A..F, all beds `all`",
                 fmt::join(listed, ", "), many ? ", ..." : ""));
  if (!near) {
    told.bed = name;
    told.cause = "unknown-bed";
  }
}

std::vector<BedId> Lookup::bed(const std::string& name) const {
  const auto found = beds_.find(name);
  return found == beds_.end() ? std::vector<BedId>() : found->second;
}

std::vector<BedId> Lookup::beds(const Node& node, Diagnostics& out) const {
  std::vector<BedId> ids;
  for (const Node* item : list_of(node)) {
    const auto text = read_text(*item, "a bed", out);
    if (!text) continue;
    if (*text == "all" && !has_bed("all")) return all_;
    const std::vector<std::string> names =
        has_bed(*text) ? std::vector<std::string>{*text} : expand_range(*text);
    if (names.empty()) report_bed(*text, *item, out);
    for (const std::string& name : names) {
      const std::vector<BedId> found = bed(name);
      if (found.empty()) {
        report_bed(name, *item, out);
        break;
      }
      ids.insert(ids.end(), found.begin(), found.end());
    }
  }
  return ids;
}

std::optional<catalogue::PathogenId> Lookup::pathogen(const Node& node, Diagnostics& out) const {
  const auto place =
      find_row(catalogue_->pathogens, node, "a disease of the catalogue", "unknown-disease", out);
  if (!place) return {};
  return catalogue::PathogenId(*place);
}

std::optional<catalogue::AmendmentId> Lookup::amendment(const Node& node, Diagnostics& out) const {
  const auto place = find_row(catalogue_->amendments, node, "a material of the catalogue",
                              "unknown-material", out);
  if (!place) return {};
  return catalogue::AmendmentId(*place);
}

}  // namespace aftercrop::load
