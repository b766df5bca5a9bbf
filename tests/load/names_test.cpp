#include "aftercrop/load/names.h"

#include <doctest/doctest.h>

#include <string>

#include "load/lookup.h"
#include "load/spelling.h"
#include "support/small_catalogue.h"

using namespace aftercrop;

TEST_CASE("names: crops are found as people write them") {
  struct Row {
    const char* typed;
    const char* id;    ///< "" = not found
    const char* said;  ///< id of the one message, "" = none
  };
  const Row rows[] = {{"tomato", "tomato", ""},
                      {"Tomatoes", "tomato", ""},
                      {"cherry tomatoes", "tomato-cherry", ""},
                      {"GREEN BEANS", "bush-bean", ""},
                      {"French bean", "bush-bean", ""},
                      {"leaf_lettuce", "lettuce-leaf", ""},
                      {"lettuces", "lettuce-leaf", "crop-reading"},
                      {"clover", "crimson-clover", "crop-reading"},
                      {"mustard", "", "ambiguous-crop"},
                      {"winter rye", "rye", ""},
                      {"carot", "", "unknown-crop"},
                      {"", "", "unknown-crop"},
                      {"xyzzy", "", "unknown-crop"}};
  const catalogue::Catalogue rows_of = support::small_catalogue();
  for (const Row& row : rows) {
    CAPTURE(row.typed);
    diagnostic::Diagnostics out;
    const auto found = load::find_crop(row.typed, rows_of, {}, out);
    CHECK((found ? rows_of.crop(*found).id : std::string()) == row.id);
    CHECK(out.all().size() == (std::string(row.said).empty() ? 0U : 1U));
    if (!out.all().empty()) CHECK(out.all()[0].id == row.said);
  }
}

TEST_CASE("names: the nearest word within a third of its letters") {
  const std::vector<std::string> known = {"tomato", "potato", "kale"};
  CHECK(load::did_you_mean("tomatoe", known) == "tomato");
  CHECK(load::did_you_mean("Potatos", known) == "potato");
  CHECK(load::did_you_mean("klae", known) == "kale");
  CHECK(!load::did_you_mean("aubergine", known));
  CHECK(load::edit_distance("abcd", "acbd") == 1);
  CHECK(load::edit_distance("", "abc") == 3);
}

TEST_CASE("names: ranges of beds") {
  struct Row {
    const char* text;
    std::size_t count;
    const char* last;
  };
  const Row rows[] = {{"A..F", 6, "F"},   {"N1..N4", 4, "N4"}, {"N9..11", 3, "N11"},
                      {"A", 1, "A"},      {"F..A", 0, ""},     {"A..N4", 0, ""},
                      {"1..3000", 0, ""}, {"..", 0, ""},       {"N1..M4", 0, ""}};
  for (const Row& row : rows) {
    CAPTURE(row.text);
    const auto names = load::expand_range(row.text);
    CHECK(names.size() == row.count);
    if (!names.empty()) CHECK(names.back() == row.last);
  }
}
