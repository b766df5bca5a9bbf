#include "claims.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace aftercrop::verifier {
namespace {

using nlohmann::json;

/// Thrown while reading; ends as words.
struct Unreadable : std::runtime_error {
  using std::runtime_error::runtime_error;
};

const json& member(const json& object, const char* key) {
  if (!object.is_object() || !object.contains(key)) {
    throw Unreadable(fmt::format("\"{}\" is missing", key));
  }
  return object.at(key);
}

const json& list(const json& object, const char* key) {
  const json& value = member(object, key);
  if (!value.is_array()) throw Unreadable(fmt::format("\"{}\" is not a list", key));
  return value;
}

double number(const json& object, const char* key) {
  const json& value = member(object, key);
  if (!value.is_number()) throw Unreadable(fmt::format("\"{}\" is not a number", key));
  const auto read = value.get<double>();
  if (!std::isfinite(read)) throw Unreadable(fmt::format("\"{}\" is not finite", key));
  return read;
}

std::string word(const json& value, const char* key) {
  if (!value.is_string()) throw Unreadable(fmt::format("\"{}\" is not a text", key));
  return value.get<std::string>();
}

calendar::Week week(const json& object, const char* key) {
  const std::string text = word(member(object, key), key);
  const auto date = calendar::Date::parse(text);
  if (!date) throw Unreadable(fmt::format("\"{}\": {} is no date", key, text));
  if (date->weekday() != 1) throw Unreadable(fmt::format("\"{}\": {} is no Monday", key, text));
  return calendar::week_of(*date);
}

Claims::BedClass bed_class(const json& row) {
  Claims::BedClass read;
  for (const json& bed : list(row, "beds")) read.beds.push_back(word(bed, "beds"));
  if (read.beds.empty()) throw Unreadable("a class has no beds");
  read.per_bed = number(row, "per_bed");
  for (const json& fee : list(row, "fees")) {
    const double season = number(fee, "season");
    if (season != std::floor(season) || std::abs(season) > 9999.0) {
      throw Unreadable(fmt::format("\"season\": {} is no year", season));
    }
    read.fees.push_back(
        {word(member(fee, "group"), "group"), static_cast<int>(season), number(fee, "fee")});
  }
  return read;
}

Claims claims(const json& document) {
  Claims read;
  read.garden = word(member(document, "certificate"), "certificate");
  const json& value = member(document, "value");
  for (std::size_t i = 0; i < kTerms; ++i) {
    read.value.of[i] = number(value, std::string(kTermNames[i]).c_str());
  }
  read.total = number(value, "total");
  read.bound = number(document, "bound");
  const json& prices = member(document, "prices");
  for (const json& row : list(prices, "supply")) {
    read.supply.push_back({word(member(row, "crop"), "crop"),
                           {week(row, "from"), week(row, "to")},
                           number(row, "per_m2")});
  }
  for (const json& row : list(prices, "roundings")) {
    const double want = number(row, "want");
    if (want != std::floor(want) || want < 1.0 || want > 1e6) {
      throw Unreadable(fmt::format("\"want\": {} is no place of a want", want));
    }
    read.roundings.push_back({static_cast<std::size_t>(want) - 1, word(member(row, "crop"), "crop"),
                              number(row, "unit_m2"), number(row, "per_m2")});
  }
  for (const json& row : list(prices, "work")) {
    read.work.push_back({week(row, "week"), number(row, "per_hour")});
  }
  for (const json& row : list(document, "classes")) read.classes.push_back(bed_class(row));
  return read;
}

}  // namespace

bool on_scale(double number) {
  constexpr double kScale = 1 << 30;
  return number * kScale == std::round(number * kScale);
}

std::variant<Claims, std::string> read_claims(const std::string& text) {
  const json document = json::parse(text, nullptr, false);
  if (document.is_discarded()) return std::string("it is no JSON");
  try {
    return claims(document);
  } catch (const Unreadable& trouble) {
    return std::string(trouble.what());
  }
}

}  // namespace aftercrop::verifier
