#include <doctest/doctest.h>

#include <map>
#include <set>

#include "emit/ics_text.h"
#include "support/every_kind.h"

using namespace aftercrop;

namespace {

const support::Emitted& made() { return support::every_kind(); }

}  // namespace

TEST_CASE("tasks: a garden in which every kind of task appears") {
  REQUIRE(made().loaded.garden.beds.size() == 5);
  std::set<emit::TaskKind> kinds;
  for (const emit::Task& task : made().tasks) kinds.insert(task.kind);
  for (std::size_t i = 0; i < emit::kTaskKinds; ++i) {
    const auto kind = static_cast<emit::TaskKind>(i);
    CAPTURE(emit::name(kind));
    // What is ordered is a list of its own.
    CHECK((kind == emit::TaskKind::Order ? !made().order.empty() : kinds.count(kind) == 1));
    CHECK_FALSE(emit::label(kind).empty());
  }
}

TEST_CASE("tasks: each has its last safe day and why; names are unique words") {
  std::set<std::string_view> names;
  for (std::size_t i = 0; i < emit::kTaskKinds; ++i) {
    names.insert(emit::name(static_cast<emit::TaskKind>(i)));
  }
  CHECK(names.size() == emit::kTaskKinds);
  for (const emit::Task& task : made().tasks) {
    CAPTURE(task.title);
    CHECK(task.latest >= task.date);
    CHECK_FALSE(task.latest_why.empty());
  }
}

TEST_CASE("tasks: what a kind of task must say") {
  struct Row {
    emit::TaskKind kind;
    std::string title;
    std::string detail;
    std::string why;
  };
  using emit::TaskKind;
  const Row rows[] = {
      {TaskKind::Support, "snap pea", "netting or twigs", "lie on the ground"},
      {TaskKind::Watch, "sunflower", "every 3 days", "breeds the pest"},
      {TaskKind::Uncover, "Take the fleece off cucumber", "dull", "bees"},
      {TaskKind::Cover, "cereal rye with a tarp", "dark", "three weeks"},
      {TaskKind::ChopAndDigIn, "mustard", "same day", ""},
      {TaskKind::SoilTest, "soil sample", "tests:", "three weeks"},
      {TaskKind::FrostKills, "oat is dead", "mild winter", ""},
      {TaskKind::SowUnderCover, "sweet pepper", "seeds", "planted out by"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.title);
    int found = 0;
    for (const emit::Task& task : made().tasks) {
      if (task.kind != row.kind) continue;
      const auto in = [](const std::string& text, const std::string& part) {
        return text.find(part) != std::string::npos;
      };
      if (in(task.title, row.title) && in(task.detail, row.detail) &&
          in(task.latest_why, row.why)) {
        ++found;
      }
    }
    CHECK(found > 0);
  }
}

TEST_CASE("tasks: the last safe day of an ending leaves what follows its day") {
  for (const emit::Task& task : made().tasks) {
    if (task.kind != emit::TaskKind::Cut && task.kind != emit::TaskKind::Clear) continue;
    for (const garden::Planting& next : made().plan.plantings) {
      if (next.bed != task.bed || next.from <= task.date) continue;
      CAPTURE(task.title);
      CHECK(task.latest < next.from);
      break;
    }
  }
}

TEST_CASE("calendar_ics: over itself the same bytes; what changed counts up, what is gone is off") {
  const emit::CalendarInput input = made().input();
  const std::string first = emit::calendar_ics(input);
  CHECK(emit::calendar_ics(input, {{}, first}) == first);
  std::vector<emit::Task> tasks = made().tasks;
  REQUIRE(tasks.size() > 3);
  tasks[0].title += " (changed)";
  const std::string gone = tasks[1].uid;
  tasks.erase(tasks.begin() + 1);
  const emit::CalendarInput other{input.garden, input.catalogue, input.plan,
                                  tasks,        input.order,     {}};
  const auto events = emit::past_events(emit::calendar_ics(other, {{}, first}));
  CHECK(events.size() == emit::past_events(first).size());
  CHECK(events.at(tasks[0].uid).sequence == 1);
  CHECK(events.at(tasks[1].uid).sequence == 0);
  CHECK(events.at(gone).cancelled);
  CHECK(events.at(gone).sequence == 1);
  // Gone for good: it stays cancelled and counts no further; back again: it counts up.
  const std::string second = emit::calendar_ics(other, {{}, first});
  CHECK(emit::calendar_ics(other, {{}, second}) == second);
  const auto back = emit::past_events(emit::calendar_ics(input, {{}, second}));
  CHECK_FALSE(back.at(gone).cancelled);
  CHECK(back.at(gone).sequence == 2);
}

TEST_CASE("calendar_ics: reminders only where they are asked for") {
  const std::string without = emit::calendar_ics(made().input());
  CHECK(without.find("VALARM") == std::string::npos);
  const std::string evening = emit::calendar_ics(made().input(), {1, {}});
  CHECK(evening.find("TRIGGER:-PT6H\r\n") != std::string::npos);
  CHECK(emit::calendar_ics(made().input(), {0, {}}).find("TRIGGER:PT7H\r\n") != std::string::npos);
}
