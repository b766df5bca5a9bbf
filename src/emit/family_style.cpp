#include "emit/family_style.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

namespace aftercrop::emit {
namespace {

/// Green and grey first: the commonest families of most gardens are those of the covers.
constexpr std::array<const char*, 9> kColours = {"#BBCC33", "#DDDDDD", "#EE8866",
                                                 "#77AADD", "#EEDD88", "#FFAABB",
                                                 "#44BB99", "#99DDFF", "#AAAA00"};

/// Marks of a pattern on a square of 12: each is told from the others in black and white.
constexpr std::array<const char*, 7> kMarks = {
    "",
    "<path d=\"M-3 3 3-3M-3 15 15-3M9 15 15 9\"/>",
    "<circle cx=\"3\" cy=\"3\" r=\"1.5\"/><circle cx=\"9\" cy=\"9\" r=\"1.5\"/>",
    "<path d=\"M3 0V12M9 0V12\"/>",
    "<path d=\"M0 3H12M0 9H12\"/>",
    "<path d=\"M-3 9 3 15M-3-3 15 15M9-3 15 3\"/>",
    "<path d=\"M0 6H12M6 0V12\"/>"};

}  // namespace

FamilyStyles::FamilyStyles(const catalogue::Catalogue& catalogue,
                           const std::vector<const garden::Planting*>& plantings,
                           const std::vector<garden::Planting>& past)
    : catalogue_(&catalogue) {
  std::map<catalogue::FamilyId, int> times;
  for (const garden::Planting* planting : plantings) {
    ++times[catalogue.crop(planting->crop).family];
  }
  for (const garden::Planting& planting : past) {
    times.try_emplace(catalogue.crop(planting.crop).family, 0);
  }
  for (const auto& [family, count] : times) families_.push_back(family);
  std::stable_sort(
      families_.begin(), families_.end(),
      [&](catalogue::FamilyId a, catalogue::FamilyId b) { return times[a] > times[b]; });
}

std::string FamilyStyles::style_class(catalogue::CropId crop) const {
  const auto found = std::find(families_.begin(), families_.end(), catalogue_->crop(crop).family);
  return found == families_.end() ? "f0" : fmt::format("f{}", found - families_.begin() + 1);
}

std::string FamilyStyles::patterns() const {
  std::string out;
  for (std::size_t i = 0; i < families_.size(); ++i) {
    out += fmt::format(
        "<pattern id=\"p{}\" width=\"12\" height=\"12\" patternUnits=\"userSpaceOnUse\">"
        "<rect width=\"12\" height=\"12\" fill=\"{}\"/>"
        "<g class=\"marks\">{}</g></pattern>\n",
        i + 1, kColours[i % kColours.size()], kMarks[i % kMarks.size()]);
  }
  return out;
}

std::string FamilyStyles::rules() const {
  std::string out;
  for (std::size_t i = 1; i <= families_.size(); ++i) {
    out += fmt::format(".f{0} {{ fill: url(#p{0}); }}\n", i);
  }
  return out;
}

std::string FamilyStyles::name(catalogue::FamilyId family) const {
  if (!family.known()) return "other";
  const catalogue::Family& row = catalogue_->family(family);
  return row.trade_name.empty() ? row.name : row.trade_name;
}

}  // namespace aftercrop::emit
