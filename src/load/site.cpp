#include "load/site.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "aftercrop/climate/nearest.h"
#include "aftercrop/load/names.h"
#include "load/lookup.h"
#include "load/moments.h"
#include "load/weather_file.h"

namespace aftercrop::load {
namespace {

using catalogue::ClimateNormals;
using diagnostic::Diagnostics;

struct Chosen {
  ClimateNormals normals;
  std::string how;
  bool told = false;        ///< worth a note
  bool has_frosts = false;  ///< the garden's own dates are in it already
};

/// A garden's own median frosts. `given` without a date = never, in most years.
struct OwnFrosts {
  bool last_given = false;
  bool first_given = false;
  std::optional<catalogue::MonthDay> last;
  std::optional<catalogue::MonthDay> first;
};

/// "3 days later": the site's frost beside the garden's own.
std::string apart(double days_off) {
  const int days = static_cast<int>(std::lround(days_off));
  if (days == 0) return "on the same day";
  const int count = std::abs(days);
  return fmt::format("{} day{} {}", count, count == 1 ? "" : "s", days > 0 ? "later" : "earlier");
}

bool is_never(const Node& node) { return node.is_scalar() && node.text == "none"; }

OwnFrosts read_frosts(const Fields& fields, Diagnostics& out) {
  OwnFrosts own;
  if (const Node* node = fields.get("last_frost")) {
    if (is_never(*node)) {
      own.last_given = true;
    } else {
      own.last = read_month_day(*node, "the last frost", out);
      own.last_given = own.last.has_value();
    }
  }
  if (const Node* node = fields.get("first_frost")) {
    if (is_never(*node)) {
      own.first_given = true;
    } else {
      own.first = read_month_day(*node, "the first frost", out);
      own.first_given = own.first.has_value();
    }
  }
  return own;
}

std::optional<Chosen> choose_by_place(const Node& node, const SiteContext& context,
                                      Diagnostics& out) {
  const std::vector<const Node*> items = list_of(node);
  if (items.size() != 2) {
    out.error("wrong-shape", "a place is two numbers: latitude and longitude", node.source,
              "write `near: [-42.9, 147.3]`: south and west are negative");
    return {};
  }
  const auto latitude = read_number(*items[0], "the latitude", {-90, 90}, out);
  const auto longitude = read_number(*items[1], "the longitude", {-180, 180}, out);
  if (!latitude || !longitude) return {};
  const auto nearest =
      climate::nearest_by_place(context.catalogue->climates, *latitude, *longitude);
  if (!nearest) return {};
  return Chosen{nearest->normals, fmt::format("the nearest, {:.0f} km away", nearest->distance_km),
                true, false};
}

std::optional<Chosen> choose_by_frosts(const OwnFrosts& own, const SiteContext& context,
                                       const Fields& fields, Diagnostics& out) {
  const auto nearest = climate::nearest_by_frost(context.catalogue->climates, *own.last, *own.first,
                                                 context.catalogue->coefficients.site.frost);
  if (!nearest) {
    out.error("no-site", "no climate of the catalogue has frosts like these", fields.source(),
              "name one with `climate:`, or give `near: [latitude, longitude]`");
    return {};
  }
  if (std::abs(nearest->wanted_shift_c) > std::abs(nearest->shift_c) + 1e-9) {
    out.warning(
        "frost-dates-far",
        fmt::format("the frost dates ask for {} to be {:+.1f} C different; {:+.1f} C is taken",
                    nearest->normals.name, nearest->wanted_shift_c, nearest->shift_c),
        fields.source(), "name a climate that is more like yours, or give `normals:`");
  }
  return Chosen{nearest->normals,
                fmt::format("nearest to the frost dates: its last frost {}, its first {}",
                            apart(nearest->last_off_days), apart(nearest->first_off_days)),
                true, true};
}

void apply_frosts(const OwnFrosts& own, const catalogue::SiteCoefficients& coefficients,
                  ClimateNormals& normals) {
  normals = climate::corrected_by_frost(normals, own.last, own.first, coefficients);
  if (own.last_given && !own.last) normals.last_frost.reset();
  if (own.first_given && !own.first) normals.first_frost.reset();
  if (!normals.last_frost && !normals.first_frost) normals.frost_years = 0.0;
}

/// Twelve numbers under the first of two keys that is there; the second is in other units.
struct Series {
  std::string_view metric_key;
  std::string_view us_key;
  double us_factor;
  double us_offset;
  Limits limits;  ///< metric
};

bool read_series(const Fields& fields, const Series& series, std::array<double, 12>& months,
                 Diagnostics& out) {
  const Node* metric = fields.get(series.metric_key);
  const Node* node = metric != nullptr ? metric : fields.get(series.us_key);
  if (node == nullptr) return false;
  const std::vector<const Node*> items = list_of(*node);
  if (items.size() != months.size()) {
    out.error("wrong-shape", fmt::format("{} months where 12 are needed", items.size()),
              node->source, "write one number for each month, January first, in both hemispheres");
    return false;
  }
  bool all = true;
  for (std::size_t i = 0; i < months.size(); ++i) {
    const auto value = read_number(*items[i], "a monthly figure", {-200, 3000}, out);
    if (!value) return false;
    months[i] = metric != nullptr ? *value : *value * series.us_factor + series.us_offset;
    all =
        check_range(months[i], "", series.limits, "a monthly figure", items[i]->source, out) && all;
  }
  return all;
}

bool apply_normals(const Node& node, ClimateNormals& normals, Diagnostics& out) {
  const Fields fields(node, "normals",
                      {"tmax_c", "tmin_c", "rain_mm", "tmax_f", "tmin_f", "rain_in"}, out);
  if (!fields.is_table()) return false;
  const bool max = read_series(fields, {"tmax_c", "tmax_f", 5.0 / 9.0, -160.0 / 9.0, {-60, 60}},
                               normals.tmax_c, out);
  const bool min = read_series(fields, {"tmin_c", "tmin_f", 5.0 / 9.0, -160.0 / 9.0, {-70, 45}},
                               normals.tmin_c, out);
  read_series(fields, {"rain_mm", "rain_in", 25.4, 0.0, {0, 3000}}, normals.rain_mm, out);
  if (!max || !min) {
    out.error("missing-key", "normals need 12 monthly maxima and 12 minima", node.source,
              "add `tmax_c: [...]` and `tmin_c: [...]`, or tmax_f and tmin_f");
    return false;
  }
  for (std::size_t i = 0; i < normals.tmax_c.size(); ++i) {
    if (normals.tmax_c[i] > normals.tmin_c[i]) continue;
    out.error("out-of-range",
              fmt::format("in month {} the maximum is not above the minimum", i + 1), node.source,
              "tmax and tmin are means of the daily maximum and minimum");
    return false;
  }
  return true;
}

/// Reads the days that were measured; with enough years of them they make the normals too.
bool read_weather(const Node& node, const SiteContext& context, garden::Site& site,
                  Diagnostics& out) {
  const auto name = read_text(node, "the weather file", out);
  if (!name) return false;
  const std::string path = context.folder.empty() ? *name : context.folder + "/" + *name;
  TextOrReason got = (*context.read)(path);
  if (!got.text) {
    out.error("weather-file", fmt::format("{} cannot be read: {}", path, got.reason), node.source,
              "name a file beside the garden file");
    return false;
  }
  const auto file = std::make_shared<const diagnostic::SourceFile>(
      diagnostic::SourceFile{path, std::move(*got.text)});
  auto days = read_weather_days(file, out);
  if (!days) return false;
  site.weather = std::move(*days);
  site.weather_file = *name;
  const int years = complete_years(site.weather);
  if (years >= kYearsOfNormals) {
    site.normals = normals_of(site.weather, site.normals);
    site.weather_normals = true;
  } else {
    out.note(
        "weather-short",
        fmt::format("{} has {} complete year{}: its days are taken for the past, and the weeks "
                    "ahead are those of {}",
                    *name, years, years == 1 ? "" : "s", site.normals.name),
        node.source, fmt::format("{} years and more make normals", kYearsOfNormals));
  }
  return true;
}

/// Where no name is like it, there are other ways to say which climate is meant.
std::optional<std::size_t> find_climate(const Node& node,
                                        const std::vector<ClimateNormals>& climates,
                                        Diagnostics& out) {
  const auto text = read_text(node, "a climate", out);
  if (!text) return {};
  const auto place = place_of_row(climates, *text);
  if (place) return place;
  const auto near = did_you_mean(*text, ids_of(climates));
  out.error("unknown-climate", fmt::format("\"{}\" is not a climate of the catalogue", *text),
            node.source,
            near ? fmt::format("did you mean \"{}\"?", *near)
                 : std::string("write `near: [latitude, longitude]` instead, for the nearest one, "
                               "or `last_frost: 05-08, first_frost: 10-05` with your own dates"));
  return {};
}

std::optional<Chosen> choose_base(const Fields& fields, const OwnFrosts& own,
                                  const SiteContext& context, Diagnostics& out) {
  if (const Node* node = fields.get("climate")) {
    const auto place = find_climate(*node, context.catalogue->climates, out);
    if (!place) return {};
    return Chosen{context.catalogue->climates[*place], "as named", false, false};
  }
  if (const Node* node = fields.get("near")) return choose_by_place(*node, context, out);
  if (own.last && own.first) return choose_by_frosts(own, context, fields, out);
  const bool misread = (fields.get("last_frost") != nullptr && !own.last_given) ||
                       (fields.get("first_frost") != nullptr && !own.first_given);
  if (!misread) {
    out.error(
        "no-site", "the site does not say which climate it has", fields.source(),
        "write `climate: NAME`, or `near: [latitude, longitude]`, or both `last_frost: 05-08` "
        "and `first_frost: 10-05`");
  }
  return {};
}

}  // namespace

std::optional<garden::Site> read_site(const Node& node, const SiteContext& context,
                                      Diagnostics& out) {
  const Fields fields(node, "site",
                      {"climate", "near", "last_frost", "first_frost", "normals", "weather"}, out);
  if (!fields.is_table()) return {};
  const OwnFrosts own = read_frosts(fields, out);
  const auto chosen = choose_base(fields, own, context, out);
  if (!chosen) return {};
  garden::Site site;
  site.normals = chosen->normals;
  site.chosen = chosen->how;
  const Node* normals = fields.get("normals");
  const Node* weather = fields.get("weather");
  if (normals != nullptr) {
    if (!apply_normals(*normals, site.normals, out)) return {};
    site.own_normals = true;
  }
  if (weather != nullptr && !read_weather(*weather, context, site, out)) return {};
  site.own_frosts = own.last_given || own.first_given;
  if (site.own_frosts && (!chosen->has_frosts || site.weather_normals)) {
    apply_frosts(own, context.catalogue->coefficients.site, site.normals);
  }
  if (chosen->told && !site.weather_normals) {
    out.note("site-chosen",
             fmt::format("the climate of {} is taken ({})", chosen->normals.name, chosen->how),
             fields.source(), "name another with `climate:` if it is not like yours");
  }
  return site;
}

}  // namespace aftercrop::load
