#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

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

namespace {

/// What files of the house write, with all that they include of it and of others.
class Includes {
 public:
  explicit Includes(const std::filesystem::path& root) : root_(root) {
    for (const char* base : {"include", "src", "tools/verifier"}) {
      for (const auto& entry : std::filesystem::recursive_directory_iterator(root / base)) {
        const std::string ending = entry.path().extension().string();
        if (ending == ".h" || ending == ".cpp") read(entry.path());
      }
    }
  }
  [[nodiscard]] const std::map<std::string, std::string>& code() const { return code_; }

  /// Headers of others that a file reaches, itself or through headers of the house.
  [[nodiscard]] std::set<std::string> reached_from(const std::string& file) const {
    std::set<std::string> others;
    std::set<std::string> seen;
    follow(file, seen, others);
    return others;
  }

 private:
  void read(const std::filesystem::path& path) {
    static const std::regex include(R"(^\s*#\s*include\s*[<"]([^>"]+)[>"])");
    const std::string name = std::filesystem::relative(path, root_).generic_string();
    std::ifstream in(path);
    for (std::string line; std::getline(in, line);) {
      std::smatch match;
      if (std::regex_search(line, match, include)) included_[name].push_back(match[1]);
      code_[name] += line.substr(0, line.find("//")) + "\n";
    }
  }

  [[nodiscard]] std::string in_house(const std::string& from, const std::string& header) const {
    const std::string beside = from.substr(0, from.rfind('/') + 1);
    for (const std::string& base : {std::string("include/"), std::string("src/"), beside}) {
      if (code_.contains(base + header)) return base + header;
    }
    return {};
  }

  void follow(const std::string& file, std::set<std::string>& seen,
              std::set<std::string>& others) const {
    const auto found = included_.find(file);
    if (found == included_.end() || !seen.insert(file).second) return;
    for (const std::string& header : found->second) {
      const std::string own = in_house(file, header);
      if (own.empty()) others.insert(header);
      if (!own.empty()) follow(own, seen, others);
    }
  }

  std::filesystem::path root_;
  std::map<std::string, std::string> code_;
  std::map<std::string, std::vector<std::string>> included_;
};

}  // namespace

// Tests are built with headers of others compiled ahead, which hides an include that is missing;
// the program as it is installed is not.
TEST_CASE("architecture: a file reaches the headers of what it names") {
  const std::map<std::string, std::regex> named = {
      {"fmt/format.h", std::regex(R"(\bfmt::)")},
      {"vector", std::regex(R"(\bstd::vector\b)")},
      {"optional", std::regex(R"(\bstd::(optional|nullopt)\b)")},
      {"map", std::regex(R"(\bstd::map\b)")},
      {"set", std::regex(R"(\bstd::set\b)")},
      {"array", std::regex(R"(\bstd::array\b)")},
      {"functional", std::regex(R"(\bstd::function\b)")},
      {"tuple", std::regex(R"(\bstd::(tuple|tie|make_tuple)\b)")},
      {"memory", std::regex(R"(\bstd::(unique_ptr|shared_ptr|make_unique|make_shared)\b)")},
      {"algorithm",
       std::regex(R"(\bstd::(sort|stable_sort|find|find_if|any_of|all_of|none_of)\b)")},
      {"cmath", std::regex(R"(\bstd::(floor|ceil|round|sqrt|pow|exp|log|isfinite|lround)\b)")},
      {"string", std::regex(R"(\bstd::string\b)")},
      {"string_view", std::regex(R"(\bstd::string_view\b)")},
      {"sstream", std::regex(R"(\bstd::[io]?stringstream\b)")},
      {"fstream", std::regex(R"(\bstd::[io]fstream\b)")},
      {"filesystem", std::regex(R"(\bstd::filesystem\b)")}};
  const Includes house(AFTERCROP_ROOT);
  CHECK(house.code().size() > 300);
  for (const auto& [file, code] : house.code()) {
    const std::set<std::string> reached = house.reached_from(file);
    for (const auto& [header, names] : named) {
      if (reached.contains(header) || !std::regex_search(code, names)) continue;
      CAPTURE(file);
      FAIL_CHECK("does not reach <" << header << ">");
    }
  }
}
