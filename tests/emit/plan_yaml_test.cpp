#include "aftercrop/emit/plan_yaml.h"

#include <doctest/doctest.h>

#include <rapidcheck.h>

#include "support/emitted.h"

using namespace aftercrop;

namespace {

bool same(const garden::Planting& a, const garden::Planting& b) {
  const auto partners = [](const garden::Planting& p) {
    std::string out;
    for (const garden::Partner& one : p.partners) {
      out += fmt::format("{}/{} ", one.crop.place(), static_cast<int>(one.at));
    }
    return out;
  };
  return a.bed == b.bed && a.crop == b.crop && a.from == b.from && a.to == b.to &&
         a.raised == b.raised && a.harvest == b.harvest && a.ending == b.ending &&
         a.resistance == b.resistance && a.yield_kg_m2 == b.yield_kg_m2 &&
         partners(a) == partners(b);
}

}  // namespace

TEST_CASE("plan_yaml: our reader gives the same plan back") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  REQUIRE(made.plan.plantings.size() == 4);
  const std::string text = emit::plan_yaml(made.loaded.garden, made.loaded.catalogue, made.plan);
  CAPTURE(text);
  diagnostic::Diagnostics again;
  const auto back = support::read_plan_text(made.loaded, text, again);
  for (const auto& one : again.all()) CAPTURE(one.message);
  REQUIRE(back);
  CHECK(again.all().empty());
  CHECK(back->name == made.plan.name);
  REQUIRE(back->plantings.size() == made.plan.plantings.size());
  for (std::size_t i = 0; i < back->plantings.size(); ++i) {
    CAPTURE(i);
    CHECK(same(back->plantings[i], made.plan.plantings[i]));
  }
}

TEST_CASE("plan_yaml: a plan without a name takes the garden's, whatever it holds") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  REQUIRE(made.loaded.garden.name == support::kNastyName);
  made.plan.name.clear();
  const std::string text = emit::plan_yaml(made.loaded.garden, made.loaded.catalogue, made.plan);
  diagnostic::Diagnostics again;
  const auto back = support::read_plan_text(made.loaded, text, again);
  REQUIRE(back);
  CHECK(back->name == support::kNastyName);
}

TEST_CASE("plan_yaml: names of any characters come back") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  const std::string names[] = {"yes",  "No",   "null", "~",     "2027",       "1e3", "0x10",
                               "a: b", "- x",  "#1",   " lead", "trail ",     "'",   "\"",
                               "\\",   "a\tb", "a\nb", "\x7F",  "é ü 畑",     "[a]", "{a: b}",
                               "*x",   "&x",   "!x",   "%x",    "@x",         "`x",  "|",
                               ">",    "x #y", "...",  "---",   "2027-03-01", "N1.2"};
  for (const std::string& name : names) {
    CAPTURE(name);
    made.plan.name = name;
    diagnostic::Diagnostics again;
    const auto back = support::read_plan_text(
        made.loaded, emit::plan_yaml(made.loaded.garden, made.loaded.catalogue, made.plan), again);
    CHECK(back);
    if (back) CHECK(back->name == name);
  }
}

TEST_CASE("plan_yaml: random ASCII names come back") {
  support::Emitted made;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(made, support::kGarden, support::kPlan, said));
  CHECK(rc::check("name round-trips", [&] {
    const auto bytes =
        *rc::gen::nonEmpty(rc::gen::container<std::string>(rc::gen::inRange<char>(1, 127)));
    garden::Plan plan;
    plan.name = bytes;
    diagnostic::Diagnostics again;
    const auto back = support::read_plan_text(
        made.loaded, emit::plan_yaml(made.loaded.garden, made.loaded.catalogue, plan), again);
    RC_ASSERT(back.has_value());
    RC_ASSERT(back->name == bytes);
  }));
}
