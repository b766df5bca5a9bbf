#include "cli/write_file.h"

#include <doctest/doctest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "aftercrop/garden/measure_text.h"
#include "cli/measures.h"
#include "cli/own_mark.h"
#include "cli/read_file.h"

namespace {

namespace fs = std::filesystem;
using aftercrop::cli::MarkForm;

/// A folder of its own, gone afterwards.
class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "aftercrop-files-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~Folder() { fs::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string at(const std::string& name) const { return (path_ / name).string(); }
  [[nodiscard]] std::ptrdiff_t count() const {
    return std::distance(fs::directory_iterator(path_), fs::directory_iterator());
  }

 private:
  fs::path path_;
};

std::string text_of(const std::string& path) {
  return aftercrop::cli::read_file(path).text.value_or("(unreadable)");
}

void put(const std::string& path, const std::string& text) { std::ofstream(path) << text; }

struct MarkRow {
  const char* name;
  MarkForm form;
  const char* text;
  const char* edited_from;
  const char* edited_to;
};

const MarkRow kMarks[] = {
    {"a plan", MarkForm::LastLine, "plan: x\nplantings: []\n", "plan: x", "plan: y"},
    {"a calendar", MarkForm::Calendar,
     "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//aftercrop\r\nEND:VCALENDAR\r\n", "2.0", "2.1"},
    {"a table", MarkForm::Column, "date,task\r\n1,\"a, b\"\r\n2,c\r\n", "2,c", "2,d"},
    {"a table whose rows were put in another order", MarkForm::Column,
     "date,task\r\n1,a\r\n2,c\r\n3,d\r\n", "2,c,\r\n3,d,", "3,d,\r\n2,c,"},
};

struct ReadingRow {
  const char* text;
  double value;  ///< negative = refused
};

}  // namespace

TEST_CASE("own mark: a marked text is known as ours until somebody edits it") {
  for (const MarkRow& row : kMarks) {
    CAPTURE(row.name);
    const std::string whole = aftercrop::cli::marked(row.text, row.form);
    CHECK(whole != row.text);
    CHECK(aftercrop::cli::untouched(whole, row.form));
    CHECK_FALSE(aftercrop::cli::untouched(row.text, row.form));
    std::string edited = whole;
    edited.replace(edited.find(row.edited_from), std::string(row.edited_from).size(),
                   row.edited_to);
    CHECK_FALSE(aftercrop::cli::untouched(edited, row.form));
    CHECK_FALSE(aftercrop::cli::untouched(whole + "# mine\n", row.form));
    CHECK_FALSE(aftercrop::cli::untouched("", row.form));
  }
}

TEST_CASE("write: an output is written again over itself, and not over an edited one") {
  const Folder folder;
  const std::string plan = folder.at("plan.yaml");
  CHECK_FALSE(aftercrop::cli::write_output(plan, "plan: a\n", false));
  CHECK_FALSE(aftercrop::cli::write_output(plan, "plan: b\n", false));
  CHECK(text_of(plan).substr(0, 8) == "plan: b\n");
  put(plan, text_of(plan) + "# a remark\n");
  const std::string edited = text_of(plan);
  CHECK(aftercrop::cli::write_output(plan, "plan: c\n", false));
  CHECK(text_of(plan) == edited);
  CHECK_FALSE(aftercrop::cli::write_output(plan, "plan: c\n", true));
  CHECK(text_of(plan).substr(0, 8) == "plan: c\n");
  CHECK(folder.count() == 1);  // nothing lies beside it
}

TEST_CASE("write: a table that somebody edited stays, though its first line is as it was") {
  const Folder folder;
  const std::string table = folder.at("tasks.csv");
  CHECK_FALSE(aftercrop::cli::write_output(table, "date,task\r\n1,a\r\n2,b\r\n", false));
  const std::string first = text_of(table);
  CHECK(first.substr(0, 20) == "date,task,checksum\r\n");
  CHECK_FALSE(aftercrop::cli::write_output(table, "date,task\r\n3,c\r\n", false));
  CHECK_FALSE(aftercrop::cli::write_output(table, "date,task\r\n1,a\r\n2,b\r\n", false));
  CHECK(text_of(table) == first);
  for (const std::string& edited :
       {first + "4,mine,\r\n", std::string("date,task\r\n1,a\r\n2,b\r\n"),
        first.substr(0, first.rfind("2,b")), first.substr(0, first.size() - 1)}) {
    CAPTURE(edited);
    put(table, edited);
    CHECK(aftercrop::cli::write_output(table, "date,task\r\n3,c\r\n", false));
    CHECK(text_of(table) == edited);
  }
  CHECK_FALSE(aftercrop::cli::write_output(table, "date,task\r\n3,c\r\n", true));
}

TEST_CASE("write: links are followed and the mode of the old file is kept") {
  const Folder folder;
  const std::string target = folder.at("target.txt");
  put(target, "old\n");
  REQUIRE(chmod(target.c_str(), 0640) == 0);
  fs::create_symlink(target, folder.at("link.txt"));
  CHECK_FALSE(aftercrop::cli::write_whole(folder.at("link.txt"), "new\n"));
  CHECK(fs::is_symlink(folder.at("link.txt")));
  CHECK(text_of(target) == "new\n");
  struct stat status {};
  REQUIRE(stat(target.c_str(), &status) == 0);
  CHECK((status.st_mode & 0777) == 0640);
}

TEST_CASE("write: what cannot be written is told and leaves nothing behind") {
  const Folder folder;
  CHECK(aftercrop::cli::write_whole(folder.at("no/such/folder.txt"), "x"));
  fs::create_directory(folder.at("is-a-folder"));
  CHECK(aftercrop::cli::write_whole(folder.at("is-a-folder"), "x"));
  fs::create_symlink(folder.at("nowhere"), folder.at("dangling"));
  CHECK(aftercrop::cli::write_whole(folder.at("dangling"), "x"));
  CHECK(aftercrop::cli::write_whole("/dev/full", "x"));
  CHECK(folder.count() == 2);
}

TEST_CASE("measures: a time needs its unit, a share its percent sign") {
  const ReadingRow times[] = {{"60s", 60.0},  {"2m", 120.0}, {"1.5 h", 5400.0}, {"60", -1.0},
                              {"", -1.0},     {"-1s", -1.0}, {"nan s", -1.0},   {"0s", -1.0},
                              {"1e9h", -1.0}, {"60ss", -1.0}};
  for (const ReadingRow& row : times) {
    CAPTURE(row.text);
    CHECK(aftercrop::cli::parse_duration(row.text).value_or(-1.0) == doctest::Approx(row.value));
  }
  const ReadingRow shares[] = {{"1%", 0.01},   {"0.5 %", 0.005}, {"0%", 0.0}, {"1", -1.0},
                               {"0.01", -1.0}, {"101%", -1.0},   {"%", -1.0}};
  for (const ReadingRow& row : shares) {
    CAPTURE(row.text);
    CHECK(aftercrop::cli::parse_percent(row.text).value_or(-1.0) == doctest::Approx(row.value));
  }
}

TEST_CASE("measures: a size of memory needs its unit") {
  const ReadingRow sizes[] = {{"500MB", 5e8}, {"2 GB", 2e9}, {"2", -1.0},
                              {"0GB", -1.0},  {"2gb", -1.0}, {"", -1.0}};
  for (const ReadingRow& row : sizes) {
    CAPTURE(row.text);
    CHECK(aftercrop::cli::parse_memory(row.text).value_or(-1.0) == doctest::Approx(row.value));
  }
}

TEST_CASE("measures: two digits are printed, in the garden's units") {
  using aftercrop::garden::UnitSystem;
  CHECK(aftercrop::cli::two_digits(0.0) == "0");
  CHECK(aftercrop::cli::two_digits(123.4) == "120");
  CHECK(aftercrop::cli::two_digits(9.96) == "10");
  CHECK(aftercrop::cli::two_digits(0.0347) == "0.035");
  CHECK(aftercrop::cli::mass_text(0.0912, UnitSystem::Metric) == "91 g");
  CHECK(aftercrop::cli::mass_text(0.0912, UnitSystem::Us) == "3.2 oz");  // 91.2 / 28.35 = 3.217
  CHECK(aftercrop::cli::mass_text(45.36, UnitSystem::Us) == "100 lb");   // 45.36 / 0.4536 = 100
  CHECK(aftercrop::cli::mass_text(-0.0912, UnitSystem::Us) == "-3.2 oz");
  // 1.6 / 28.35 = 0.0564: nitrogen stays in ounces, seed is weighed in grams.
  CHECK(aftercrop::cli::mass_text(-0.0016, UnitSystem::Us) == "-0.056 oz");
  CHECK(aftercrop::garden::seed_mass_text(0.0016, UnitSystem::Us) == "1.6 g");
  CHECK(aftercrop::garden::seed_mass_text(0.0912, UnitSystem::Us) == "3.2 oz");
}
