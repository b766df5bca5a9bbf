#include "aftercrop/emit/calendar.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>

#include "support/emitted.h"

using namespace aftercrop;

namespace {

/// RFC 4180, strictly: fields of one record; `at` moves behind its CRLF. Empty on a fault.
std::vector<std::string> next_record(const std::string& text, std::size_t& at) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  while (at < text.size()) {
    const char c = text[at++];
    if (quoted) {
      if (c != '"') {
        cells.back() += c;
      } else if (at < text.size() && text[at] == '"') {
        cells.back() += text[at++];
      } else {
        quoted = false;
      }
    } else if (c == '"') {
      if (!cells.back().empty()) return {};
      quoted = true;
    } else if (c == ',') {
      cells.emplace_back();
    } else if (c == '\r') {
      if (at >= text.size() || text[at++] != '\n') return {};
      return cells;
    } else {
      cells.back() += c;
    }
  }
  return {};
}

std::vector<std::vector<std::string>> records(const std::string& text) {
  std::vector<std::vector<std::string>> all;
  for (std::size_t at = 0; at < text.size();) {
    all.push_back(next_record(text, at));
    if (all.back().empty()) break;
  }
  return all;
}

int times(const std::string& text, const std::string& part) {
  int count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++count;
  }
  return count;
}

const support::Emitted& made() {
  static const support::Emitted* const one = [] {
    auto* filled = new support::Emitted;
    diagnostic::Diagnostics said;
    support::fill(*filled, support::kGarden, support::kPlan, said);
    return filled;
  }();
  return *one;
}

}  // namespace

TEST_CASE("tasks: every planting has its start once, its end once, and a food crop its harvest") {
  REQUIRE(made().plan.plantings.size() == 4);
  using emit::TaskKind;
  const std::set<TaskKind> starts = {TaskKind::Sow, TaskKind::PlantOut};
  const std::set<TaskKind> ends = {TaskKind::Cut, TaskKind::ChopAndDigIn, TaskKind::Clear,
                                   TaskKind::FrostKills};
  for (const garden::Planting& planting : made().plan.plantings) {
    CAPTURE(made().loaded.catalogue.crop(planting.crop).id);
    std::map<TaskKind, int> counts;
    int started = 0;
    int ended = 0;
    for (const emit::Task& task : made().tasks) {
      if (task.bed != planting.bed || task.crop != planting.crop) continue;
      ++counts[task.kind];
      started += starts.count(task.kind) > 0 && task.date == planting.from ? 1 : 0;
      ended += ends.count(task.kind) > 0 && task.date == planting.to.plus_days(-1) ? 1 : 0;
    }
    CHECK(started == 1);
    CHECK(ended == 1);
    CHECK(counts[TaskKind::HarvestStart] == (planting.harvest ? 1 : 0));
    CHECK(counts[TaskKind::HarvestEnd] == (planting.harvest ? 1 : 0));
    CHECK(counts[TaskKind::SowUnderCover] == (planting.raised ? 1 : 0));
  }
}

TEST_CASE("tasks: sorted by day, uids unique, latest day never before the day itself") {
  REQUIRE_FALSE(made().tasks.empty());
  std::set<std::string> uids;
  calendar::Date before = made().tasks.front().date;
  for (const emit::Task& task : made().tasks) {
    CAPTURE(task.title);
    CHECK(before <= task.date);
    before = task.date;
    CHECK(uids.insert(task.uid).second);
    CHECK(task.latest >= task.date);
    CHECK_FALSE(task.latest_why.empty());
  }
}

TEST_CASE("tasks: cautions stand where the advice stands") {
  const auto caution_of = [](const std::string& title) {
    for (const emit::Task& task : made().tasks) {
      if (task.title.find(title) != std::string::npos) return task.caution;
    }
    return std::string("no such task");
  };
  CHECK(caution_of("Sow faba cover").find("G6PD") != std::string::npos);
  CHECK(caution_of("Feed the bed for sweet corn").find("Test the soil first") != std::string::npos);
}

TEST_CASE("order: a mixture is bought by its parts") {
  support::Emitted mixed;
  diagnostic::Diagnostics said;
  const std::string plan =
      "plantings:\n  - {bed: A, crop: oat-pea-radish, from: 2027-08-09, to: 2028-03-06, "
      "ending: winterkilled}\n";
  REQUIRE(support::fill(mixed, support::kGarden, plan, said));
  // 4.8 m2; the mixture is sown at 1.2 times the shares of the sole rates: 40, 40 and 20 %.
  const catalogue::Catalogue& rows = mixed.loaded.catalogue;
  int parts = 0;
  for (const auto& [id, share] :
       {std::pair("oat", 0.4), {"field-pea", 0.4}, {"radish-oilseed", 0.2}}) {
    CAPTURE(id);
    const catalogue::Crop& part = rows.crop(*rows.find_crop(id));
    for (const emit::OrderLine& line : mixed.order) {
      if (line.what != part.name + " seed") continue;
      ++parts;
      CHECK(line.amount == doctest::Approx(4.8 * 1.2 * share * part.cover->seed_g_m2));
    }
  }
  CHECK(parts == 3);
  CHECK(mixed.order.size() == 3);
}

TEST_CASE("order: seed by the margin of the list, plants and covers") {
  const auto amount = [](const std::string& what) {
    for (const emit::OrderLine& line : made().order) {
      if (line.what.find(what) != std::string::npos) return line.amount;
    }
    return -1.0;
  };
  const catalogue::Catalogue& rows = made().loaded.catalogue;
  // 4 m x 1.2 m = 4.8 m2
  CHECK(amount("rye") == doctest::Approx(4.8 * rows.crop(*rows.find_crop("rye")).cover->seed_g_m2));
  // tomato, sown under cover, one seed a plant: 1.3 x plants x mass / 0.75
  const catalogue::Crop& tomato = rows.crop(*rows.find_crop("tomato"));
  const double plants =
      std::floor(120.0 / tomato.between_row_cm) * std::floor(400.0 / tomato.in_row_cm);
  CHECK(amount("tomato seed") ==
        doctest::Approx(1.3 * plants * tomato.seed_mass_mg / 1000.0 / 0.75));
  CHECK(amount("basil") > 0.0);
  CHECK(amount("feather meal") > 0.0);
}

TEST_CASE("calendar_csv: RFC 4180 whatever the names hold, no cell is a formula") {
  for (const bool plantings : {false, true}) {
    CAPTURE(plantings);
    const std::string text = emit::calendar_csv(made().input(), plantings);
    const auto rows = records(text);
    const std::size_t things =
        plantings ? made().plan.plantings.size() : made().tasks.size() + made().order.size();
    REQUIRE(rows.size() == things + 1);
    for (const auto& row : rows) {
      CHECK(row.size() == rows.front().size());
      for (const std::string& cell : row) {
        CAPTURE(cell);
        CHECK((cell.empty() || std::string("=+-@\t\r").find(cell.front()) == std::string::npos));
      }
    }
  }
}

TEST_CASE("calendar_csv: a bed whose name is a formula gets an apostrophe") {
  support::Emitted other;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(other,
                        "seasons: 2027\nsite: {climate: minneapolis}\n"
                        "beds: [{bed: A, length: 4 m, width: 1.2 m}]\nwants: [tomatoes]\n",
                        "plan: x\nplantings: [{bed: A, crop: carrot, from: 2027-05-03, to: "
                        "2027-08-30}]\n",
                        said));
  other.loaded.garden.beds[0].name = "=1+2,\"x\"";
  const std::string text = emit::calendar_csv(other.input(), true);
  CHECK(text.find("\"'=1+2,\"\"x\"\"\"") != std::string::npos);
}

TEST_CASE("calendar_ics: lines of at most 75 octets, CRLF only, characters whole") {
  support::Emitted other;
  diagnostic::Diagnostics said;
  REQUIRE(support::fill(other, support::kGarden, support::kPlan, said));
  other.loaded.garden.beds[0].name = "畑の北側、トマトと豆のための長い名前の苗床 ü";
  const std::string text = emit::calendar_ics(other.input());
  CHECK(text.size() > 2);
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = text.find("\r\n", at);
    REQUIRE(end != std::string::npos);
    const std::string line = text.substr(at, end - at);
    CAPTURE(line);
    CHECK(line.size() <= 75);
    CHECK(line.find('\n') == std::string::npos);
    CHECK(line.find('\r') == std::string::npos);
    const auto first = static_cast<unsigned char>(line.size() > 1 ? line[1] : 'x');
    CHECK((line[0] != ' ' || (first & 0xC0U) != 0x80U));
    at = end + 2;
  }
  std::set<calendar::Date> days;
  for (const emit::OrderLine& line : other.order) days.insert(line.needed_by);
  CHECK(times(text, "BEGIN:VEVENT") == static_cast<int>(other.tasks.size() + days.size()));
  CHECK(text.find('\x01') == std::string::npos);
}

TEST_CASE("calendar_ics: the same input gives the same bytes, a moved stand keeps its uid") {
  support::Emitted moved;
  diagnostic::Diagnostics said;
  std::string plan = support::kPlan;
  const std::size_t at = plan.find("from: 2027-04-12, to");
  REQUIRE(at != std::string::npos);
  plan.replace(at, 16, "from: 2027-04-19");
  REQUIRE(support::fill(moved, support::kGarden, plan, said));
  const auto uid = [](const support::Emitted& one) {
    for (const emit::Task& task : one.tasks) {
      if (task.title.find("Sow faba cover") == 0) return task.uid;
    }
    return std::string();
  };
  CHECK_FALSE(uid(moved).empty());
  CHECK(uid(moved) == uid(made()));
  CHECK(emit::calendar_ics(moved.input()) != emit::calendar_ics(made().input()));
  CHECK(emit::calendar_ics(made().input()) == emit::calendar_ics(made().input()));
}

TEST_CASE("calendar_txt: at most 80 columns, each task once, nothing but text") {
  const std::string text = emit::calendar_txt(made().input());
  std::size_t at = 0;
  int boxes = 0;
  while (at < text.size()) {
    const std::size_t end = text.find('\n', at);
    REQUIRE(end != std::string::npos);
    const std::string line = text.substr(at, end - at);
    CAPTURE(line);
    CHECK(line.size() <= 90);  // octets; a control character's picture takes three
    for (const char c : line) CHECK((static_cast<unsigned char>(c) >= 0x20 && c != 0x7F));
    boxes += times(line, "[ ] ");
    at = end + 1;
  }
  // Tasks of a day that differ in their beds alone stand together.
  std::set<std::vector<std::string>> kinds;
  for (const emit::Task& task : made().tasks) {
    kinds.insert({task.date.text(), task.title, task.detail, task.latest.text(), task.latest_why,
                  task.caution});
  }
  CHECK(boxes == static_cast<int>(kinds.size() + made().order.size()));
}

TEST_CASE("calendar_txt: one line for the same work in many beds, every bed named") {
  support::Emitted strip;
  diagnostic::Diagnostics said;
  support::fill(strip,
                "garden: strip\nseasons: 2027\nsite: {climate: boston}\n"
                "beds: [{beds: [B1..B5, X], length: 4 m, width: 1 m, soil: loam, "
                "organic_matter: 3 %, ph: 6.5}]\n",
                "plan: strip\nplantings:\n"
                "  - {bed: [B1..B3, B5, X], crop: oat, from: 2027-08-16, to: 2027-12-20, "
                "ending: winterkilled}\n"
                "  - {bed: B4, crop: rye, from: 2027-09-20, to: 2028-04-17, "
                "ending: incorporated}\n",
                said);
  const std::string text = emit::calendar_txt(strip.input());
  CAPTURE(text);
  CHECK(times(text, ": Sow oat\n") == 1);
  CHECK(text.find("B1..B3, B5, X, each: Sow oat\n") != std::string::npos);
  CHECK(text.find("  B4: Sow cereal rye\n") != std::string::npos);
}

TEST_CASE("tasks: a short stand is fed beside its rows while it stands") {
  support::Emitted one;
  diagnostic::Diagnostics said;
  support::fill(one,
                "garden: one\nseasons: 2027\nsite: {climate: boston}\n"
                "beds: [{beds: [A], length: 4 m, width: 1 m, soil: sandy loam, "
                "organic_matter: 1 %, ph: 6.5}]\n",
                "plan: one\nplantings:\n"
                "  - {bed: A, crop: rye, from: 2027-01-04, to: 2027-06-14, ending: incorporated}\n"
                "  - {bed: A, crop: spinach, from: 2027-06-14, to: 2027-07-05, "
                "harvest: [2027-06-28, 2027-07-05], ending: harvested-cut}\n",
                said);
  int fed = 0;
  for (const emit::Task& task : one.tasks) {
    if (task.kind != emit::TaskKind::Feed) continue;
    ++fed;
    CHECK(task.date.text() == "2027-06-28");
    CHECK(task.latest.text() == "2027-07-04");  // not a fortnight later: the bed is cleared then
  }
  CHECK(fed == 1);
}

TEST_CASE("tasks: seed that follows at once is fed beside its rows, seed that waits before it") {
  const auto fed = [](const char* cover_ends) {
    support::Emitted one;
    diagnostic::Diagnostics said;
    support::fill(one,
                  "garden: one\nseasons: 2027\nsite: {climate: boston}\n"
                  "beds: [{beds: [A], length: 4 m, width: 1 m, soil: sandy loam, "
                  "organic_matter: 1 %, ph: 6.5}]\n",
                  std::string("plan: one\nplantings:\n"
                              "  - {bed: A, crop: rye, from: 2027-01-04, to: ") +
                      cover_ends +
                      ", ending: incorporated}\n"
                      "  - {bed: A, crop: squash-winter, from: 2027-06-14, to: 2027-10-04, "
                      "harvest: [2027-09-13, 2027-10-04], ending: harvested-cut}\n",
                  said);
    for (const emit::Task& task : one.tasks) {
      if (task.kind == emit::TaskKind::Feed) return task;
    }
    return emit::Task();
  };
  const emit::Task late = fed("2027-06-14");
  CHECK(late.date.text() == "2027-06-28");  // a fortnight after the seed
  CHECK(late.detail.find("beside the rows") != std::string::npos);
  CHECK(late.latest_why.find("burn") == std::string::npos);
  const emit::Task early = fed("2027-05-03");
  CHECK(early.date.text() == "2027-05-31");  // a fortnight before it
  CHECK(early.detail.find("beside the rows") == std::string::npos);
  CHECK(early.latest_why.find("burn") != std::string::npos);
}

TEST_CASE("calendars of one bed hold that bed only") {
  const support::Emitted& all = made();
  const emit::CalendarInput input{
      all.loaded.garden, all.loaded.catalogue, all.plan, all.tasks, all.order, "A"};
  const std::string text = emit::calendar_csv(input, true);
  CHECK(records(text).size() == 4);  // heading and three stands
  CHECK(emit::calendar_txt(input).find("tomato") == std::string::npos);
}
