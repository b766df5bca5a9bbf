#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>

// The include table: a folder may include itself and the folders named here. DEVELOPERS.md shows
// the same picture.
namespace {

using Allowed = std::map<std::string, std::set<std::string>>;

Allowed include_table() {
  Allowed table;
  table["units"] = {};
  table["calendar"] = {};
  table["diagnostic"] = {"calendar"};
  table["catalogue"] = {"units", "calendar", "diagnostic"};
  table["garden"] = {"units", "calendar", "diagnostic", "catalogue"};
  table["climate"] = {"units", "calendar", "catalogue", "garden"};
  table["load"] = {"units", "calendar", "diagnostic", "catalogue", "garden", "climate"};
  table["nitrogen"] = {"units", "calendar", "catalogue"};
  table["disease"] = {"units", "calendar", "catalogue"};
  table["ledger"] = {"units",  "calendar", "diagnostic", "catalogue",
                     "garden", "climate",  "nitrogen",   "disease"};
  table["rules"] = {"units",   "calendar", "diagnostic", "catalogue", "garden",
                    "climate", "nitrogen", "disease",    "ledger"};
  table["graph"] = {"units", "calendar", "catalogue", "garden", "climate", "ledger"};
  table["sequencer"] = {"units",    "calendar", "diagnostic", "catalogue", "garden", "climate",
                        "nitrogen", "disease",  "ledger",     "rules",     "graph"};
  table["check"] = {"units",   "calendar", "diagnostic", "catalogue", "garden",
                    "climate", "nitrogen", "disease",    "ledger",    "rules"};
  table["explain"] = {"units",    "calendar", "diagnostic", "catalogue", "garden", "climate",
                      "nitrogen", "disease",  "ledger",     "rules",     "check",  "sequencer"};
  table["emit"] = {"units",     "calendar", "diagnostic", "catalogue", "garden",
                   "climate",   "nitrogen", "disease",    "ledger",    "rules",
                   "sequencer", "check",    "explain"};
  table["cli"] = {"units",   "calendar",  "diagnostic", "catalogue", "garden",
                  "climate", "load",      "nitrogen",   "disease",   "ledger",
                  "rules",   "sequencer", "check",      "explain",   "emit"};
  return table;
}

std::string folder_of(const std::filesystem::path& file, const std::filesystem::path& base) {
  return std::filesystem::relative(file, base).begin()->string();
}

}  // namespace

TEST_CASE("architecture: every include obeys the include table") {
  const Allowed table = include_table();
  const std::filesystem::path root = AFTERCROP_ROOT;
  const std::regex ours(R"(^\s*#\s*include\s*\"(?:aftercrop/)?([a-z_]+)/[^\"]+\")");
  int includes = 0;
  for (const auto& base : {root / "include" / "aftercrop", root / "src"}) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator(base)) {
      if (!entry.is_regular_file()) continue;
      const std::string folder = folder_of(entry.path(), base);
      CAPTURE(entry.path().string());
      const auto allowed = table.find(folder);
      REQUIRE_MESSAGE(allowed != table.end(), "folder is not in the table");
      std::ifstream in(entry.path());
      for (std::string line; std::getline(in, line);) {
        std::smatch match;
        if (!std::regex_search(line, match, ours)) continue;
        ++includes;
        const std::string target = match[1];
        CAPTURE(line);
        CHECK((target == folder || allowed->second.count(target) == 1));
      }
    }
  }
  CHECK(includes > 20);
}

TEST_CASE("architecture: a library with one home is included nowhere else") {
  const std::map<std::string, std::set<std::string>> homes = {
      {"<boost/graph/", {"graph"}}, {"<boost/date_time/", {"calendar"}},
      {"<yaml-cpp/", {"load"}},     {"ClpSimplex.hpp", {"sequencer"}},
      {"<nlohmann/", {"emit"}},     {"<CLI/", {"cli"}}};
  const std::filesystem::path root = AFTERCROP_ROOT;
  for (const auto& base : {root / "include" / "aftercrop", root / "src"}) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator(base)) {
      if (!entry.is_regular_file()) continue;
      const std::string folder = folder_of(entry.path(), base);
      std::ifstream in(entry.path());
      for (std::string line; std::getline(in, line);) {
        if (line.find("#include") == std::string::npos) continue;
        for (const auto& [library, folders] : homes) {
          if (line.find(library) == std::string::npos) continue;
          CAPTURE(entry.path().string());
          CHECK(folders.count(folder) == 1);
        }
      }
    }
  }
}

TEST_CASE("architecture: the verifier knows nothing of the search") {
  const std::filesystem::path root = AFTERCROP_ROOT;
  const std::set<std::string> allowed = {"units",   "calendar", "diagnostic", "catalogue",
                                         "garden",  "climate",  "load",       "nitrogen",
                                         "disease", "ledger",   "rules"};
  const std::regex ours(R"(^\s*#\s*include\s*\"aftercrop/([a-z_]+)/[^\"]+\")");
  const std::regex beside(R"(^\s*#\s*include\s*\"([a-z_]+)\.h\")");
  const std::regex quoted(R"(^\s*#\s*include\s*\")");
  int includes = 0;
  for (const auto& entry : std::filesystem::directory_iterator(root / "tools" / "verifier")) {
    CAPTURE(entry.path().string());
    std::ifstream in(entry.path());
    for (std::string line; std::getline(in, line);) {
      if (!std::regex_search(line, quoted)) continue;
      CAPTURE(line);
      std::smatch match;
      ++includes;
      if (std::regex_search(line, match, ours)) {
        CHECK(allowed.count(match[1]) == 1);
      } else {
        REQUIRE(std::regex_search(line, match, beside));
        const std::string header = match[1].str() + ".h";
        CHECK(std::filesystem::exists(root / "tools" / "verifier" / header));
      }
    }
  }
  CHECK(includes > 20);
}
