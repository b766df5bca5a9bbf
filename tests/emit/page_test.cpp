#include "aftercrop/emit/page.h"

#include <doctest/doctest.h>

#include <cmath>
#include <regex>
#include <string>

#include "aftercrop/check/check.h"
#include "emit/bed_time_picture.h"
#include "emit/chart.h"
#include "emit/family_style.h"
#include "emit/markup.h"
#include "support/every_kind.h"

using namespace aftercrop;

namespace {

const support::Emitted& made() { return support::every_kind(); }

int times(const std::string& text, const std::string& part) {
  int count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++count;
  }
  return count;
}

std::string page_of(const std::string& bed, std::optional<calendar::Date> as_of = {}) {
  emit::CalendarInput input = made().input();
  input.bed = bed;
  const diagnostic::Diagnostics none;
  const auto reasons =
      explain::reasons_of_plan(made().loaded.garden, made().loaded.catalogue, made().accounts);
  return emit::calendar_html({input, made().accounts, none, reasons, as_of});
}

}  // namespace

TEST_CASE("markup: nothing typed is markup, inside tags or quotes") {
  CHECK(emit::markup("<a href=\"x\">'&") == "&lt;a href=&quot;x&quot;&gt;&#39;&amp;");
  CHECK(emit::markup("a\x07"
                     "b") == "a\u2407b");
  CHECK(emit::markup("\u202E") == "\uFFFD");
  CHECK(emit::name_markup("<i>") == "<bdi>&lt;i&gt;</bdi>");
  CHECK(emit::prose_markup("by 2027-05-24 <b>") == "by 24 May 2027 &lt;b&gt;");
  CHECK(emit::prose_markup("2027-13-01") == "2027-13-01");
}

TEST_CASE("markup: numbers of pictures are short and never minus nothing") {
  CHECK(emit::coordinate(12.0) == "12");
  CHECK(emit::coordinate(12.345) == "12.3");
  CHECK(emit::coordinate(-0.01) == "0");
}

TEST_CASE("charts: steps of an axis are 1, 2 or 5 times a power of ten and few") {
  struct Row {
    double most;
    double step;
  };
  for (const Row& row : {Row{4.0, 1.0}, Row{4.1, 2.0}, Row{0.63, 0.2}, Row{19.0, 5.0}}) {
    CAPTURE(row.most);
    CHECK(emit::nice_step(row.most, 4) == doctest::Approx(row.step));
    CHECK(row.most / emit::nice_step(row.most, 4) <= 4.0);
  }
}

TEST_CASE("charts: a unit on the axis, a text alternative, values where they belong") {
  emit::TimeChart chart;
  chart.title = "Nitrogen <now>";
  chart.summary = "2 at the start";
  chart.unit = "g for the bed";
  chart.weeks = {*calendar::parse_week("2027-W01"), *calendar::parse_week("2029-W01")};
  chart.most = 4.0;
  chart.lines.push_back({"", "ready", {{chart.weeks.first, 0.0}, {chart.weeks.past, 4.0}}, {}});
  const std::string svg = emit::time_chart(chart);
  CHECK(svg.find("aria-label=\"Nitrogen &lt;now&gt;. 2 at the start\"") != std::string::npos);
  CHECK(svg.find(">g for the bed<") != std::string::npos);
  CHECK(svg.find(">2028<") != std::string::npos);
  // From the bottom left (38, 150) to the top right (354, 20).
  CHECK(svg.find("d=\"M38 150L354 20\"") != std::string::npos);
  CHECK(emit::range_bar(1.0, 0.5, 2.0, 2.0).find("width=\"60\"") != std::string::npos);
}

TEST_CASE("pictures: a label is cut to what its bar holds, or left out") {
  CHECK(emit::fitted("tomato", 6) == "tomato");
  CHECK(emit::fitted("tomato", 5) == "toma\u2026");
  CHECK(emit::fitted("tomato", 3).empty());
}

TEST_CASE("calendar_svg: every stand once, one document, no script") {
  const std::string svg = emit::calendar_svg(made().input());
  CHECK(times(svg, "<title>") == static_cast<int>(made().plan.plantings.size()) + 1);
  CHECK(svg.find("<script") == std::string::npos);
  CHECK(svg.find("class=\"today\"") == std::string::npos);
  const auto day = calendar::Date::parse("2027-06-01");
  CHECK(emit::calendar_svg(made().input(), day).find("class=\"today\"") != std::string::npos);
  CHECK(emit::calendar_svg(made().input()) == svg);
}

TEST_CASE("calendar_html: every task, stand and bed; what is typed stays text") {
  const std::string page = page_of("");
  const std::size_t from = page.find("id=\"tasks\"");
  const std::size_t to = page.find("id=\"order\"");
  REQUIRE(from < to);
  CHECK(times(page.substr(from, to - from), "<li ") == static_cast<int>(made().tasks.size()));
  CHECK(times(page, "<section class=\"sheet\"") == 5);
  CHECK(times(page, "class=\"stand\" href") == times(page, "<details class=\"stand\""));
  CHECK(page.find("<script>window") == std::string::npos);
  CHECK(page.find("<i>") == std::string::npos);
  for (const char c : page) CHECK((static_cast<unsigned char>(c) >= 0x20 || c == '\n'));
  for (const char* outside : {"=\"http", "=\"//", "src=", "@import", "url(h"}) {
    CAPTURE(outside);
    CHECK(page.find(outside) == std::string::npos);
  }
}

TEST_CASE(
    "calendar_html: one bed's page holds that bed only; the day is told or left to the reader") {
  const std::string page = page_of("A.1");
  CHECK(times(page, "<section class=\"sheet\"") == 1);
  CHECK(page.find("sweet corn") == std::string::npos);
  CHECK(page.find("data-today") == std::string::npos);
  const std::string told = page_of("", calendar::Date::parse("2027-06-09"));
  CHECK(told.find("data-today=\"20978\"") != std::string::npos);
  CHECK(told.find("This week, that of 7 Jun to 13 Jun 2027") != std::string::npos);
}

TEST_CASE("calendar_html: each stand says why it is there, in the words of an explanation") {
  const std::string page = page_of("");
  for (const std::string words :
       {"it stands ahead of sweet corn from 7 Jun 2027", "nitrogen from the air",
        "a legume whose roots stay in the bed", "never here before, as far as is on record",
        "it covers the ground as the wet or freezing season begins"}) {
    CAPTURE(words);
    CHECK(page.find(words) != std::string::npos);
  }
  CHECK(times(page, "<dt>Why here</dt>") == times(page, "<dt>Ends</dt>"));
}

TEST_CASE("calendar_html: a load at the end lies within the span that stands beside it") {
  support::Emitted autumn;
  diagnostic::Diagnostics ignored;
  REQUIRE(support::fill(
      autumn, support::kGarden,
      "plan: broccoli, then a long winter\nplantings:\n"
      "  - {bed: A, crop: broccoli, from: 2028-07-03, harvest: [2028-09-11, 2028-10-23], to: "
      "2028-10-23, ending: harvested-cut}\n"
      "  - {bed: A, crop: rye, from: 2028-10-23, to: 2029-05-21, ending: incorporated}\n",
      ignored));
  const ledger::SiteClimates climates(autumn.loaded.garden, autumn.loaded.catalogue);
  ledger::add_load_spans(autumn.accounts, autumn.loaded.garden, autumn.loaded.catalogue, climates,
                         autumn.plan);
  const std::string page = emit::calendar_html({autumn.input(), autumn.accounts, ignored, {}, {}});
  const std::regex said(R"(([0-9.]+) \(([0-9.]+) to ([0-9.]+)\) at the end)");
  int loads = 0;
  for (auto one = std::sregex_iterator(page.begin(), page.end(), said);
       one != std::sregex_iterator(); ++one, ++loads) {
    CAPTURE(one->str());
    CHECK(std::stod((*one)[2]) <= std::stod((*one)[1]));
    CHECK(std::stod((*one)[1]) <= std::stod((*one)[3]));
  }
  CHECK(loads > 0);
}

TEST_CASE("pictures: a family looks the same on the page, which shows the past too, and alone") {
  const catalogue::Catalogue& rows = made().loaded.catalogue;
  const auto stand_of = [&](const char* crop) {
    garden::Planting planting;
    planting.crop = rows.find_crop(crop).value();
    return planting;
  };
  const std::vector<garden::Planting> ahead = {stand_of("tomato"), stand_of("potato"),
                                               stand_of("leek")};
  const std::vector<garden::Planting> past(5, stand_of("leek"));  // the commonest, were it counted
  std::vector<const garden::Planting*> shown;
  for (const garden::Planting& planting : ahead) shown.push_back(&planting);
  const emit::FamilyStyles alone(rows, shown);
  const emit::FamilyStyles with_past(rows, shown, past);
  for (const garden::Planting& planting : ahead) {
    CHECK(alone.style_class(planting.crop) == with_past.style_class(planting.crop));
  }
  CHECK(with_past.style_class(stand_of("leek").crop) == "f2");
  shown.pop_back();
  CHECK(emit::FamilyStyles(rows, shown, past).style_class(stand_of("leek").crop) == "f2");
}
