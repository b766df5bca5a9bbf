#include "aftercrop/catalogue/provenance.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace aftercrop::catalogue {
namespace {

constexpr int kRange = 3;  // low, typical, high

void add(std::vector<FigureGroup>& groups, std::string_view name, std::string_view topic,
         int figures) {
  if (figures > 0) groups.push_back({name, topic, figures});
}

int given(double figure) { return figure > 0.0 ? 1 : 0; }

std::vector<FigureGroup> groups_of_cover(const Crop& crop) {
  const CoverFigures& cover = *crop.cover;
  std::vector<FigureGroup> groups;
  add(groups, "seed rate", "seed_rate", given(cover.seed_g_m2));
  add(groups, "top growth", "biomass", kRange);
  add(groups, "nitrogen of top growth", "nitrogen", static_cast<int>(cover.n_pct.size()));
  add(groups, "killing cold", "kill", 1);
  add(groups, "wait after it", "wait", static_cast<int>(cover.wait_weeks.size()));
  add(groups, "sowing windows", "windows", 2 * static_cast<int>(cover.windows.size()));
  add(groups, "days to flower", "days", 2);
  add(groups, "nitrogen taken up", "uptake", 2);
  add(groups, "below ground", "below_ground", 2);
  add(groups, "temperatures", "temperature", 5);
  add(groups, "root depth", "root_depth", 1);
  add(groups, "fixation", "fixation", crop.legume ? 2 : 0);
  add(groups, "weeks to stand, regrowth, weeds", "stand", 3);
  add(groups, "local calendar", "calendar", 2 * static_cast<int>(crop.local_calendar.size()));
  return groups;
}

std::vector<FigureGroup> groups_of_crop(const Crop& crop) {
  std::vector<FigureGroup> groups;
  add(groups, "yield", "yield", crop.yield_unit == YieldUnit::None ? 0 : kRange);
  add(groups, "days to harvest", "days", 2);
  add(groups, "seed mass", "seed", given(crop.seed_mass_mg));
  add(groups, "spacing and depth", "spacing", given(crop.in_row_cm) * kRange);
  add(groups, "killing cold", "frost", 1);
  add(groups, "root depth", "root", 1);
  add(groups, "sowing class", "sowing_class", 1);
  add(groups, "base and cap of growth", "temperature", 2);
  add(groups, "soil to come up", "soil_minimum", 1);
  add(groups, "limits of growth", "growth_limits", 2);
  add(groups, "least mean of a spring start", "spring_minimum", crop.spring_min_c ? 1 : 0);
  add(groups, "warmest soil to come up", "soil_maximum", crop.soil_max_c ? 1 : 0);
  if (crop.setting) {
    add(groups, "heat that keeps it from setting", "setting",
        given(Setting::kNoLimit - crop.setting->night_c) +
            given(Setting::kNoLimit - crop.setting->day_c));
    add(groups, "weeks from setting to harvest", "setting_weeks", 1);
  }
  add(groups, "local calendar", "calendar", 2 * static_cast<int>(crop.local_calendar.size()));
  add(groups, "nitrogen", "nitrogen", 7);
  add(groups, "below ground", "below_ground", 2);
  add(groups, "fixation", "fixation", crop.legume ? 2 : 0);
  add(groups, "harvest weeks, work, smallest stand", "harvest", 4);
  return groups;
}

const Citation* first_of(const std::vector<Citation>& sources, std::string_view topic) {
  const auto found = std::find_if(sources.begin(), sources.end(),
                                  [&](const Citation& one) { return one.topic == topic; });
  return found == sources.end() ? nullptr : &*found;
}

void count(Tally& into, const std::vector<Citation>& sources, std::string_view topic, int figures) {
  const Citation* said = source_of(sources, topic);
  const auto grade =
      std::find(kGradeNames.begin(), kGradeNames.end(), said == nullptr ? "" : said->grade);
  if (grade == kGradeNames.end()) {
    into.without += figures;
  } else {
    into.figures[static_cast<std::size_t>(grade - kGradeNames.begin())] += figures;
  }
}

/// `figures` numbers a row, under the row's own sources.
template <class Row, class Figures>
Tally tally_of(std::string table, const std::vector<Row>& rows, Figures figures) {
  Tally sum;
  sum.table = std::move(table);
  for (const Row& row : rows) {
    ++sum.rows;
    count(sum, row.sources, "all", figures(row));
  }
  return sum;
}

Tally tally_crops(const Catalogue& rows, bool covers) {
  Tally sum;
  sum.table = covers ? "cover crops" : "food crops, herbs, flowers";
  for (const Crop& crop : rows.crops) {
    if (crop.is_cover() != covers) continue;
    ++sum.rows;
    for (const FigureGroup& group : figure_groups(crop)) {
      count(sum, crop.sources, group.topic, group.figures);
    }
  }
  return sum;
}

/// The first topic where the row names a source for it, else the second.
std::string_view either(const std::vector<Citation>& sources, std::string_view first,
                        std::string_view second) {
  return source_of(sources, first) != nullptr ? first : second;
}

Tally tally_pathogens(const Catalogue& rows) {
  Tally sum;
  sum.table = "diseases and pests";
  for (const Pathogen& row : rows.pathogens) {
    ++sum.rows;
    // half-life, break, threshold and ceiling; gain; the part that each host plays
    for (const auto& [topic, figures] :
         {std::pair{"half_life", kRange}, {"break", kRange}, {"threshold", 1}, {"ceiling", 1}}) {
      const bool own = first_of(row.sources, topic) != nullptr;
      count(sum, row.sources, own ? topic : "figures", figures);
    }
    count(sum, row.sources, either(row.sources, "gain", "figures"), 1);
    count(sum, row.sources, either(row.sources, "hosts", "figures"),
          static_cast<int>(row.hosts.size()));
    for (const Biofumigation& effect : row.biofumigation) {
      count(sum, effect.sources, either(effect.sources, "efficacy", "trials"), kRange);
    }
  }
  return sum;
}

Tally tally_climates(const Catalogue& rows) {
  Tally sum;
  sum.table = "climates";
  for (const ClimateNormals& row : rows.climates) {
    ++sum.rows;
    // maximum, minimum and rain of twelve months, and their spread; share of frosty years, dates
    count(sum, row.sources, "normals", 3 * 12 + (row.sd_c[0] > 0.0 ? 12 : 0));
    count(sum, row.sources, "frost", 1 + (row.last_frost ? 2 : 0));
  }
  return sum;
}

int figures_of(const ResidueClass& row) {
  int figures = 0;
  for (const int wait :
       {row.incorporated, row.mulch, row.transplants, row.late_incorporated, row.late_mulch,
        row.late_transplants, row.winterkilled, row.mulch_transplants, row.least_incorporated}) {
    figures += wait > 0 ? 1 : 0;
  }
  return figures;
}

/// The same sources, whatever they are cited for.
bool same_word(const std::vector<Citation>& a, const std::vector<Citation>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const Citation& one, const Citation& other) {
                      return one.text == other.text && one.grade == other.grade;
                    });
}

/// A topic without a group of figures: its key as people say it.
std::string words_of(std::string topic) {
  if (topic == "rest" || topic == "all") return "the rest";
  std::replace(topic.begin(), topic.end(), '_', ' ');
  return topic;
}

}  // namespace

std::vector<FigureGroup> figure_groups(const Crop& crop) {
  return crop.is_cover() ? groups_of_cover(crop) : groups_of_crop(crop);
}

const Citation* source_of(const std::vector<Citation>& sources, std::string_view topic) {
  for (const std::string_view one : {topic, std::string_view("rest"), std::string_view("all")}) {
    if (const Citation* found = first_of(sources, one)) return found;
  }
  return topic == "all" && !sources.empty() ? &sources.front() : nullptr;
}

std::vector<Attribution> attributions(const Crop& crop) {
  std::vector<Attribution> rows;
  std::vector<std::string> told;
  const auto add = [&](std::string figures, const std::string& topic) {
    Attribution row{std::move(figures), {}};
    std::copy_if(crop.sources.begin(), crop.sources.end(), std::back_inserter(row.sources),
                 [&](const Citation& one) { return one.topic == topic; });
    const auto same = std::find_if(rows.begin(), rows.end(), [&](const Attribution& other) {
      return same_word(other.sources, row.sources);
    });
    if (same == rows.end()) {
      rows.push_back(std::move(row));
    } else {
      same->figures += ", " + row.figures;
    }
  };
  for (const FigureGroup& group : figure_groups(crop)) {
    const Citation* first = source_of(crop.sources, group.topic);
    told.push_back(first == nullptr ? std::string(group.topic) : first->topic);
    add(std::string(group.name), told.back());
  }
  for (const Citation& source : crop.sources) {
    if (std::find(told.begin(), told.end(), source.topic) != told.end()) continue;
    told.push_back(source.topic);
    add(words_of(source.topic), source.topic);
  }
  return rows;
}

std::vector<Tally> tally(const Catalogue& rows) {
  return {tally_crops(rows, false),
          tally_crops(rows, true),
          tally_of("breaks of families", rows.groups, [](const BreakGroup&) { return 4; }),
          tally_pathogens(rows),
          tally_of("partners", rows.partners, [](const PartnerRow&) { return 1; }),
          tally_climates(rows),
          tally_of("soils", rows.soils, [](const Soil&) { return 5; }),
          tally_of("amendments", rows.amendments, [](const Amendment&) { return 7; }),
          tally_of("residue classes", rows.residues,
                   [](const ResidueClass& row) { return figures_of(row); })};
}

std::string with_grade(const Citation& source) {
  const bool alone = source.grade.empty() || source.text == source.grade;
  return alone ? source.text : source.text + " (" + source.grade + ")";
}

}  // namespace aftercrop::catalogue
