#include <fmt/format.h>

#include <array>

#include "load/catalogue_tables.h"

namespace aftercrop::load {
namespace {

using catalogue::ClimateNormals;
using catalogue::MonthDay;
using diagnostic::Diagnostics;

constexpr Limits kVolume{0.01, 0.9};

/// "04-25", or "none" for a place without frost in the median year.
void read_month_day(const RowFields& row, std::string_view key, std::optional<MonthDay>& into,
                    Diagnostics& out) {
  const Node* node = row.get(key);
  if (node == nullptr) return;
  into.reset();
  if (node->text == "none") return;
  const std::string_view text = node->text;
  const auto month =
      text.size() == 5 && text[2] == '-' ? plain_whole(text.substr(0, 2)) : std::nullopt;
  const auto day = month ? plain_whole(text.substr(3)) : std::nullopt;
  if (!day || !calendar::Date::from_ymd(2027, *month, *day)) {
    out.error("not-a-date", fmt::format("\"{}\" is not a day of the year", node->text),
              node->source, "write month-day, as in 04-25, or none");
    return;
  }
  into = MonthDay{*month, *day};
}

void read_frost(const RowFields& row, ClimateNormals& climate, Diagnostics& out) {
  const Node* node = row.get("frost");
  if (node == nullptr) return;
  const RowFields fields(*node, "frost", {"last", "first", "sd_days", "share_of_years"}, out);
  read_month_day(fields, "last", climate.last_frost, out);
  read_month_day(fields, "first", climate.first_frost, out);
  fields.number("share_of_years", climate.frost_years, {0, 1});
  if (fields.get("sd_days") == nullptr) return;
  std::array<double, 2> days{};
  fields.numbers("sd_days", days, {0.5, 60});
  climate.last_frost_sd_days = days[0];
  climate.first_frost_sd_days = days[1];
}

void read_climate(const Node& node, CatalogueBuild& build) {
  const std::string id = read_row_id(node, "climates", build);
  if (id.empty()) return;
  const auto [place, fresh] = open_row(build.rows.climates, id);
  ClimateNormals& climate = build.rows.climates[place];
  const RowFields row(
      node, "a climate",
      {"id", "name", "station", "country", "type", "latitude", "longitude", "elevation_m", "tmax_c",
       "tmin_c", "rain_mm", "sd_c", "frost", "years", "period", "source"},
      build.out);
  if (fresh) row.need({"name", "latitude", "longitude", "tmax_c", "tmin_c", "rain_mm", "frost"});
  if (fresh) climate.sd_c.fill(3.0);
  row.text("name", climate.name);
  row.text("station", climate.station);
  row.text("country", climate.country);
  row.text("type", climate.type);
  row.number("latitude", climate.latitude, {-90, 90});
  row.number("longitude", climate.longitude, {-180, 180});
  row.number("elevation_m", climate.elevation_m, {-450, 6000});
  row.numbers("tmax_c", climate.tmax_c, {-60, 60});
  row.numbers("tmin_c", climate.tmin_c, {-70, 45});
  row.numbers("rain_mm", climate.rain_mm, {0, 2000});
  row.numbers("sd_c", climate.sd_c, {0.3, 15});
  read_frost(row, climate, build.out);
  row.whole("years", climate.years, {0, 200});
  row.text("period", climate.period);
  read_row_source(row, build, climate.sources);
  for (std::size_t month = 0; month < 12; ++month) {
    check_order(climate.tmin_c[month], climate.tmax_c[month], "a month's tmin_c to tmax_c",
                node.source, build.out);
  }
}

void read_soil(const Node& node, CatalogueBuild& build) {
  const std::string id = read_row_id(node, "soils", build);
  if (id.empty()) return;
  const auto [place, fresh] = open_row(build.rows.soils, id);
  catalogue::Soil& soil = build.rows.soils[place];
  const RowFields row(node, "a soil",
                      {"id", "name", "wilting_point", "field_capacity", "saturation",
                       "bulk_density", "wetness", "source"},
                      build.out);
  if (fresh) row.need({"name", "wilting_point", "field_capacity", "saturation"});
  row.text("name", soil.name);
  row.number("wilting_point", soil.wilting_point, kVolume);
  row.number("field_capacity", soil.field_capacity, kVolume);
  row.number("saturation", soil.saturation, kVolume);
  row.number("bulk_density", soil.bulk_density, {0.1, 2.2});
  row.number("wetness", soil.wetness, {0.1, 5});
  read_row_source(row, build, soil.sources);
  check_order(soil.wilting_point, soil.field_capacity, "wilting point to field capacity",
              node.source, build.out);
  check_order(soil.field_capacity, soil.saturation, "field capacity to saturation", node.source,
              build.out);
}

}  // namespace

void read_climates(const Node& node, CatalogueBuild& build) {
  for (const Node* row : read_list(node, "climates", build.out)) read_climate(*row, build);
}

void read_soils(const Node& node, CatalogueBuild& build) {
  for (const Node* row : read_list(node, "soils", build.out)) read_soil(*row, build);
}

}  // namespace aftercrop::load
