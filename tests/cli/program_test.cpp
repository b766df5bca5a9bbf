#include <doctest/doctest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>

// The program as people run it: what it returns and what it says.
namespace {

namespace fs = std::filesystem;

struct Run {
  int code = -1;
  std::string out;
  std::string err;
};

std::string slurp(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// A folder to run in, gone afterwards.
class Bench {
 public:
  Bench() {
    std::string name = (fs::temp_directory_path() / "aftercrop-run-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path_ = name;
    fs::create_directory(path_ / "here");
  }
  ~Bench() { fs::remove_all(path_); }
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;

  [[nodiscard]] fs::path at(const std::string& name) const { return path_ / "here" / name; }
  void put(const std::string& name, const std::string& text) const {
    std::ofstream(at(name), std::ios::binary) << text;
  }

  [[nodiscard]] Run run(const std::string& words) const {
    const std::string command = "cd '" + (path_ / "here").string() +
                                "' && '" AFTERCROP_PROGRAM "' " + words + " >../out 2>../err";
    const int status = std::system(command.c_str());
    Run result;
    result.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    result.out = slurp(path_ / "out");
    result.err = slurp(path_ / "err");
    return result;
  }

 private:
  fs::path path_;
};

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

constexpr const char* kGarden =
    "garden: test\n"
    "seasons: 2027\n"
    "site: {climate: seattle}\n"
    "beds: [{beds: [A, B], length: 2 m, width: 1 m}]\n"
    "wants: [{crop: kale, amount: 2 kg}]\n";

struct Row {
  const char* words;
  int code;
  const char* says;  ///< on either stream
};

const Row kRows[] = {
    {"--version", 0, "aftercrop 0."},
    {"--help", 0, "calendar"},
    {"plan --help", 0, "Example:\n  aftercrop plan"},
    {"", 2, "no garden.yaml here"},
    {"plna garden.yaml", 2, "did you mean plan?"},
    {"xyzzyx", 2, "there is no command \"xyzzyx\""},
    {"plan --witin 3s garden.yaml", 2, "did you mean --within?"},
    {"--color=blue crops", 2, "--color"},
    {"--color never crops tomato", 0, "Solanum lycopersicum"},
    {"crops tomatoes", 0, "Solanum lycopersicum"},
    {"crops tomatoe", 2, "did you mean \"tomato\"?"},
    {"crops zzzzqqq", 2, "is not a crop"},
    {"crops --family nightshades", 0, "eggplant"},
    {"crops --family nightshade", 2, "did you mean \"nightshades\"?"},
    {"crops --cover", 0, "rye"},
    {"crops rye --format json", 0, "\"rye\""},
    {"crops --summary", 0, "from memory"},
    {"crops --summary --format json", 0, "\"cover crops\""},
    {"crops --host-of clubroot", 0, "prone"},
    {"crops --host-of clubrot", 2, "did you mean \"clubroot\"?"},
    {"crops --sow-in 2027-W36", 2, "needs --garden"},
    {"crops --sow-in soon --garden garden.yaml", 2, "neither a week (2027-W36) nor a day"},
    {"crops tomato --garden nowhere.yaml", 2, "nowhere.yaml"},
    {"crops --sow-in 2027-W20 --garden nowhere.yaml", 2, "nowhere.yaml"},
    {"crops rye-vetch", 0, "50 % hairy-vetch"},
    {"crops faba", 0, "faba-overwintering"},
    {"check", 2, "GARDEN"},
    {"check nowhere.yaml", 2, "nowhere.yaml"},
    {"plan nowhere.yaml --within 60", 2, "60s, 2m or 1h"},
    {"plan nowhere.yaml --gap 1", 2, "1% or 0.5%"},
    {"calendar a.yaml b.yaml -o x.pdf", 2, ".html, .svg, .ics, .csv or .txt"},
    {"calendar a.yaml b.yaml", 2, "--output"},
    {"calendar a.yaml b.yaml -o x.html --as-of May", 2, "2027-05-24"},
    {"new x --beds 0", 2, "--beds"},
    {"new x --climate seatle", 2, "did you mean \"seattle\"?"},
};

}  // namespace

TEST_CASE("program: codes and words of the command line") {
  const Bench bench;
  for (const Row& row : kRows) {
    CAPTURE(row.words);
    const Run run = bench.run(row.words);
    CAPTURE(run.out);
    CAPTURE(run.err);
    CHECK(run.code == row.code);
    CHECK(holds(run.out + run.err, row.says));
  }
}

TEST_CASE("program: a broken file returns 2 and says where") {
  const Bench bench;
  bench.put("garden.yaml", std::string(kGarden) + "wnats: []\n");
  const Run text = bench.run("check garden.yaml");
  CHECK(text.code == 2);
  CHECK(text.out.empty());
  CHECK(holds(text.err, "garden.yaml:6:1: error["));
  const Run json = bench.run("check garden.yaml --format json");
  CHECK(json.code == 2);
  CHECK(holds(json.out, "\"line\""));
}

TEST_CASE("program: what can be sown in a week of a garden") {
  const Bench bench;
  bench.put("garden.yaml", kGarden);
  const Run autumn = bench.run("crops --cover --sow-in 2027-W36 --garden garden.yaml");
  CHECK(autumn.code == 0);
  CHECK(holds(autumn.out, "rye"));
  CHECK_FALSE(holds(autumn.out, "sorghum-sudan"));
  const Run day = bench.run("crops --family solanaceae --sow-in 2027-06-01 --garden garden.yaml");
  CHECK(holds(day.out, "tomato"));
  CHECK(holds(day.out, "harvest from 2027-W"));
}

TEST_CASE("program: one crop in a week of a garden, and when it may be started at all") {
  const Bench bench;
  bench.put("garden.yaml", kGarden);
  const Run summer = bench.run("crops tomato --sow-in 2027-W23 --garden garden.yaml");
  CHECK(summer.code == 0);
  CHECK(holds(summer.out, "in 2027-W23     harvest from 2027-W"));
  CHECK(holds(summer.out, "  open            2027-W23 to 2027-W"));
  const Run winter = bench.run("crops tomato --sow-in 2027-W01 --garden garden.yaml");
  CHECK(holds(winter.out, "in 2027-W01     not to be started"));
  CHECK(holds(winter.out, "  open            2027-W"));
  CHECK(bench.run("crops tomato --sow-in 2027-W23").code == 2);
}

TEST_CASE("program: the seasons of one crop at a garden, and what shuts them") {
  const Bench bench;
  bench.put("garden.yaml",
            "garden: cold\nseasons: 2027\nsite: {climate: minneapolis}\n"
            "beds:\n  - {beds: [A], length: 2 m, width: 1 m}\n"
            "  - {beds: [T], length: 2 m, width: 1 m, shelter: tunnel}\n");
  const Run tomato = bench.run("crops tomato --garden garden.yaml");
  CHECK(tomato.code == 0);
  for (const char* said :
       {"\n  here            at ", ", in open ground\n", ", in a tunnel\n",
        "\n  set out         2027-", " (2027-W", "\n  harvest         first from 2027-",
        "\n  earlier         before frost is unlikely enough",
        "\n  later           too late for its shortest harvest before frost"}) {
    CAPTURE(std::string(said));
    CHECK(holds(tomato.out, said));
  }
  const Run corn = bench.run("crops sweet-corn --garden garden.yaml");
  CHECK(holds(corn.out, "\n  early cultivar  2027-"));
  CHECK(holds(corn.out, "counted with"));
  CHECK(holds(corn.out, "one of 70 days"));
  // A week that is asked for is answered in its place.
  CHECK_FALSE(
      holds(bench.run("crops tomato --sow-in 2027-W23 --garden garden.yaml").out, "  here  "));
  CHECK_FALSE(holds(bench.run("crops tomato").out, "  here  "));
  const Run json = bench.run("crops sweet-corn --garden garden.yaml --format json");
  CHECK(holds(json.out, "\"here\""));
  CHECK(holds(json.out, "\"shelter\": \"open\""));
  CHECK(holds(json.out, "\"first_harvest\": \"2027-W"));
}

TEST_CASE("program: a local calendar of the user's rows is shown, kept by the plan and checked") {
  const Bench bench;
  bench.put("garden.yaml",
            "garden: warm\nseasons: 2027\nsite: {climate: atlanta}\ncrops: rows.yaml\n"
            "beds: [{beds: [A, B], length: 4 m, width: 1 m}]\n"
            "wants: [{crop: bush-bean, amount: 4 kg}]\n");
  bench.put("rows.yaml",
            "crops: [{id: bush-bean, calendar: [06-21, 07-27], source: {published: the county's "
            "chart}}]\n");
  const Run sheet = bench.run("crops bush-bean --garden garden.yaml");
  CHECK(holds(sheet.out, "\n  sown            2027-06-21 to 2027-08-01"));
  CHECK(holds(sheet.out, "\n  later           outside the dates of its local calendar (1 week"));
  CHECK(holds(sheet.out, "\n  calendar        started 06-21 to 07-27 in open ground\n"));
  CHECK(holds(sheet.out, "local calendar: the county's chart (published)"));
  CHECK(bench.run("plan garden.yaml -o plan.yaml --within 2s").code == 0);
  const std::string plan = slurp(bench.at("plan.yaml"));
  const std::size_t at = plan.find("crop: bush-bean, from: 2027-0");
  REQUIRE(at != std::string::npos);
  for (std::size_t i = at; i != std::string::npos; i = plan.find("bush-bean, from: ", i + 1)) {
    const std::string from = plan.substr(plan.find("from: ", i) + 6, 10);
    CAPTURE(from);
    CHECK(from >= "2027-06-21");
    CHECK(from <= "2027-08-01");
  }
  std::string early = plan;
  early.replace(early.find("from: ", at) + 6, 10, "2027-05-03");
  bench.put("early.yaml", early);
  const Run check = bench.run("check garden.yaml early.yaml");
  CHECK(check.code == 1);
  CHECK(holds(check.out, "started outside the dates of its local calendar (7 weeks outside)"));
  CHECK(holds(check.out, "source: the county's chart (published)"));
  CHECK_FALSE(holds(check.out, "Knott"));
}

TEST_CASE("program: crops in a week, for other programs") {
  const Bench bench;
  bench.put("garden.yaml", kGarden);
  const Run one = bench.run("crops tomato --sow-in 2027-W23 --garden garden.yaml --format json");
  CHECK(one.code == 0);
  CHECK(holds(one.out, "\"week\": \"2027-W23\""));
  CHECK(holds(one.out, "\"open\": true"));
  CHECK(holds(one.out, "\"harvest_from\": \"2027-W"));
  CHECK(holds(one.out, "\"open_weeks\""));
  const Run covers =
      bench.run("crops --cover --sow-in 2027-W36 --garden garden.yaml --format json");
  CHECK(holds(covers.out, "\"useful_from\": \"2027-W"));
  CHECK_FALSE(holds(bench.run("crops tomato --format json").out, "\"asked\""));
}

TEST_CASE("program: a crop's sheet shows every figure that decides something, with its source") {
  const Bench bench;
  const std::string tomato = bench.run("crops tomato").out;
  for (const char* said :
       {"sets            hardly above 24 C at night or 32 C by day, 6 weeks before",
        "counted         degree-days above 6.5 C, up to 30 C", "spring start    tender",
        "life            annual", "roots           ", "stand of        ", "work            ",
        "what it leaves  ", "heat that keeps it from setting: Steil", "base and cap of growth: "}) {
    CAPTURE(std::string(said));
    CHECK(holds(tomato, said));
  }
  CHECK(holds(bench.run("crops spinach").out, "start limits    no seed in soil above 29 C"));
  const std::string broccoli = bench.run("crops broccoli").out;
  CHECK(holds(broccoli, "start limits    in spring from a mean of 10 C"));
  CHECK(holds(broccoli, "spring start    half-hardy"));
  CHECK(holds(bench.run("crops garlic").out, "spring start    hardy"));
  const std::string rye = bench.run("crops rye").out;
  CHECK(holds(rye, "sown from       9 weeks before the first frost to 2 weeks after the first"));
  CHECK(holds(rye, "after it        regrowth strong; weeds kept down 4 of 4; waits 4 weeks"));
  CHECK_FALSE(holds(rye, "sets  "));
  const std::string json = bench.run("crops tomato --format json").out;
  for (const char* key : {"\"setting\"", "\"night_c\": 24", "\"day_c\": 32", "\"cap_c\": 30",
                          "\"soil_max_c\": null", "\"spring_min_c\": 13.6", "\"touches_soil\"",
                          "\"sowing_class\": \"tender\"", "\"fixation_ceiling\""}) {
    CAPTURE(std::string(key));
    CHECK(holds(json, key));
  }
  CHECK(holds(bench.run("crops rye --format json").out, "\"wait_weeks\""));
}

TEST_CASE("program: crops in the units of a garden") {
  const Bench bench;
  bench.put("garden.yaml", std::string(kGarden) + "units: us\n");
  const Run tomato = bench.run("crops tomato --garden garden.yaml");
  CHECK(tomato.code == 0);
  for (const char* unit :
       {" lb/ft2 (", " in in the row", " F", " lb/acre at ", " lb leave with a ton"}) {
    CAPTURE(std::string(unit));
    CHECK(holds(tomato.out, unit));
  }
  for (const char* unit : {"kg", " cm", " C\n", "/ha"}) {
    CAPTURE(std::string(unit));
    CHECK_FALSE(holds(tomato.out.substr(0, tomato.out.find("  sources")), unit));
  }
  CHECK(holds(bench.run("crops rye --garden garden.yaml").out, " oz/100 ft2"));
  CHECK(holds(bench.run("crops --cover --garden garden.yaml").out, "ton/acre dry"));
}

TEST_CASE("program: a file of own rows with three mistakes is told all three, with ways out") {
  const Bench bench;
  bench.put("own.yaml",
            "crops:\n"
            "  - {id: tomato, yeild: {per_m2: [3, 5, 9]}}\n"
            "  - {id: my-tomato, like: tomatto}\n"
            "  - {id: carrot, days: {least: 5}}\n");
  const Run run = bench.run("crops tomato --crops own.yaml");
  CHECK(run.code == 2);
  CHECK(run.out.empty());
  CHECK(holds(run.err, "own.yaml:2:18: error[unknown-key]"));
  CHECK(holds(run.err, "did you mean \"yield\"?"));
  CHECK(holds(run.err, "own.yaml:3:27: error[unknown-crop]"));
  CHECK(holds(run.err, "did you mean \"tomato\"?"));
  CHECK(holds(run.err, "own.yaml:4:32: error[out-of-range]"));
  CHECK(holds(run.err, "it can be 10 to 1500"));
}

TEST_CASE("program: `new` writes a garden that checks without a warning, and never over one") {
  const Bench bench;
  for (const char* words : {"new a", "new b --units us --climate seattle --beds 3 --season 2028"}) {
    CAPTURE(words);
    CHECK(bench.run(words).code == 0);
  }
  for (const char* garden : {"a", "b"}) {
    CAPTURE(garden);
    const Run check = bench.run(std::string("check ") + garden);
    CAPTURE(check.out);
    CHECK(check.code == 0);
    CHECK_FALSE(holds(check.out + check.err, "warning"));
  }
  CHECK(holds(slurp(bench.at("b/garden.yaml")), "beds: 3 of 8 ft x 4 ft"));
  const std::string before = slurp(bench.at("a/garden.yaml"));
  CHECK(bench.run("new a --force").code == 2);
  CHECK(slurp(bench.at("a/garden.yaml")) == before);
}

TEST_CASE("program: a garden is planned, checked, accounted and handed out") {
  const Bench bench;
  bench.put("garden.yaml", kGarden);
  const Run plan = bench.run("plan garden.yaml --within 20s");
  CAPTURE(plan.out);
  CAPTURE(plan.err);
  CHECK(plan.code == 0);
  CHECK(holds(plan.out, "wants"));
  CHECK_FALSE(holds(plan.out, "kg/ha"));
  CHECK(bench.run("check garden.yaml plan.yaml").code == 0);
  CHECK(holds(bench.run("ledger garden.yaml plan.yaml --bed A").out, "Bed A"));
  CHECK(bench.run("ledger garden.yaml plan.yaml --bed Q").code == 2);
  CHECK(bench.run("calendar garden.yaml plan.yaml -o t.txt -o t.csv -o t.ics").code == 0);
  CHECK(holds(slurp(bench.at("t.ics")), "X-AFTERCROP-CHECKSUM:"));
  CHECK(holds(slurp(bench.at("t.txt")), "# written by aftercrop, checksum "));
  CHECK(bench.run("calendar garden.yaml plan.yaml -o t.html -o t.svg --as-of 2027-06-01").code ==
        0);
  for (const char* file : {"t.html", "t.svg"}) {
    CAPTURE(file);
    CHECK(holds(slurp(bench.at(file)), "<!-- written by aftercrop, checksum "));
    bench.put("edited.html", slurp(bench.at(file)) + " ");
    CHECK(bench.run("calendar garden.yaml plan.yaml -o edited.html").code == 2);
  }
  // Written again over itself: not refused, and the same bytes.
  const std::string first = slurp(bench.at("t.ics"));
  CHECK(bench.run("calendar garden.yaml plan.yaml -o t.ics -o t.html -o t.svg").code == 0);
  CHECK(slurp(bench.at("t.ics")) == first);
  const Run straight = bench.run("calendar garden.yaml plan.yaml -o /dev/stdout");
  CAPTURE(straight.err);
  CHECK(straight.code == 0);
  CHECK(straight.out + "# written by aftercrop" ==
        slurp(bench.at("t.txt")).substr(0, straight.out.size() + 22));
}

TEST_CASE("program: what is short of a repeated want is told with its weeks, within 80 columns") {
  const Bench bench;
  bench.put("garden.yaml",
            "garden: salads\nseasons: 2027\nsite: {climate: minneapolis}\n"
            "beds: [{beds: [A, B], length: 4 m, width: 1 m}]\n"
            "wants:\n  - {crop: lettuce-leaf, amount: 0.3 kg, every: 1 week, "
            "harvest: [05-03, 07-04]}\n");
  const Run run = bench.run("");
  CAPTURE(run.out);
  CHECK(holds(run.out, "short      leaf lettuce: "));
  // May has no pickings here, June has.
  CHECK(holds(run.out, "; 2027-05-03 to 2027-0"));
  CHECK(holds(run.out, "open       calendar.html"));
  std::istringstream lines(run.out);
  for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80);
}

TEST_CASE("program: a crop's sheet is folded, in US units to its last figure") {
  const Bench bench;
  bench.put("garden.yaml", std::string(kGarden) + "units: us\n");
  const Run pea = bench.run("crops pea-shell --garden garden.yaml");
  CHECK(holds(pea.out, "about 3.3 ft high"));
  std::istringstream lines(pea.out);
  for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80);
  CHECK_FALSE(holds(bench.run("crops strawberry").out, "0 cm deep"));
  CHECK(holds(bench.run("crops --family onions").err, "onion family"));
}

TEST_CASE("program: a plan is taken up again on a day: what began stays, what failed is told") {
  const Bench bench;
  bench.put("garden.yaml", kGarden);
  bench.put("old.yaml",
            "plan: old\nplantings:\n"
            "  - {bed: A, crop: kale, from: 2027-04-19, harvest: [2027-06-21, 2027-07-19], "
            "to: 2027-07-19, ending: failed}\n"
            "  - {bed: B, crop: carrot, from: 2027-04-19, harvest: [2027-07-12, 2027-08-09], "
            "to: 2027-08-09}\n");
  const Run run =
      bench.run("plan garden.yaml --keep old.yaml --as-of 2027-06-01 -o new.yaml --within 10s");
  CAPTURE(run.out);
  CAPTURE(run.err);
  CHECK(run.code == 0);
  const std::string plan = slurp(bench.at("new.yaml"));
  CHECK(holds(plan, "crop: carrot, from: 2027-04-19"));  // begun before the day
  CHECK(holds(plan, "crop: kale, from: 2027-04-19, to: 2027-06-01, ending: failed"));
  CHECK(holds(run.out, "failed"));  // and a new kale says what it is for
  CHECK(holds(bench.run("plan garden.yaml --as-of 2027-06-01").err, "--keep"));
  CHECK(bench.run("plan garden.yaml --keep old.yaml --as-of June").code == 2);
}

TEST_CASE("program: an edited plan is not lost") {
  const Bench bench;
  bench.put("garden.yaml", kGarden);
  bench.put("plan.yaml", "plan: typed by hand\nplantings: []\n");
  const Run run = bench.run("plan garden.yaml --within 5s");
  CHECK(run.code == 2);
  CHECK(holds(run.err, "--force"));
  CHECK(slurp(bench.at("plan.yaml")) == "plan: typed by hand\nplantings: []\n");
  CHECK(bench.run("plan garden.yaml -o garden.yaml --within 5s").code == 2);
  CHECK(slurp(bench.at("garden.yaml")) == kGarden);
}

TEST_CASE("program: a rotation with a site of its own is checked without a garden") {
  const Bench bench;
  bench.put("rotation.yaml",
            "plan: tomatoes each year\n"
            "site: {climate: seattle}\n"
            "plantings:\n"
            "  - {bed: A, crop: tomato, year: 2027}\n"
            "  - {bed: A, crop: tomato, year: 2028}\n");
  const Run run = bench.run("check rotation.yaml");
  CAPTURE(run.out);
  CAPTURE(run.err);
  CHECK(run.code == 1);
  CHECK(holds(run.out, "family-break"));
}
