#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "aftercrop/check/check.h"
#include "aftercrop/diagnostic/render.h"
#include "aftercrop/load/load.h"
#include "aftercrop/rules/rule.h"

// One folder a rule: a garden, the smallest plan that breaks the rule (bad.yaml), one that nearly
// does (near.yaml), and what a reader sees of the bad one (expected.txt, one line a finding).
// UPDATE_GOLDEN=1 writes expected.txt anew.
using namespace aftercrop;
namespace fs = std::filesystem;

namespace {

const fs::path kRoot = AFTERCROP_ROOT;
const fs::path kFolders = kRoot / "tests/rules";
const char* const kNearGarden =
    "near-garden.yaml";  // where the garden, not the plan, is nearly bad

std::optional<std::string> text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) return {};
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::vector<std::string> rule_folders() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(kFolders)) {
    if (entry.is_directory()) names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

/// Reads files of one folder by their bare names, so that messages carry no path.
load::ReadText reader_of(const std::string& folder) {
  return [folder](const std::string& path) -> load::TextOrReason {
    return {text_of(kFolders / folder / path), "No such file or directory"};
  };
}

std::string lines_of(const diagnostic::Diagnostics& findings, const std::string& id) {
  std::string lines;
  for (const auto& one : findings.all()) {
    if (one.id == id) lines += diagnostic::render_concise(one) + "\n";
  }
  return lines;
}

std::string errors_of(const diagnostic::Diagnostics& said) {
  std::string lines;
  for (const auto& one : said.all()) {
    if (one.severity == diagnostic::Severity::Error)
      lines += diagnostic::render_concise(one) + "\n";
  }
  return lines;
}

/// What the checker says about one rule of one plan.
std::string judged(const std::string& folder, const std::string& plan_name) {
  diagnostic::Diagnostics said;
  const bool own_garden = plan_name == "near.yaml" && fs::exists(kFolders / folder / kNearGarden);
  const auto loaded = load::load_garden(own_garden ? kNearGarden : "garden.yaml",
                                        load::embedded_catalogue(), reader_of(folder), said);
  REQUIRE_MESSAGE(loaded, errors_of(said));
  const auto plan = load::load_plan(plan_name, *loaded, reader_of(folder), said);
  REQUIRE_MESSAGE(plan, errors_of(said));
  const ledger::SiteClimates climates(loaded->garden, loaded->catalogue);
  const auto judgement = check::judge(loaded->garden, loaded->catalogue, climates, *plan);
  return lines_of(judgement.findings, folder);
}

/// Every rule of the table.
std::set<std::string> rules_to_show() {
  std::set<std::string> names;
  for (const garden::RuleCard& card : garden::kRuleCards) names.insert(std::string(card.name));
  return names;
}

}  // namespace

TEST_CASE("rules: a bad plan is told of, word for word") {
  const bool renew = std::getenv("UPDATE_GOLDEN") != nullptr;
  for (const std::string& folder : rule_folders()) {
    CAPTURE(folder);
    const std::string told = judged(folder, "bad.yaml");
    CHECK_FALSE(told.empty());
    const fs::path golden = kFolders / folder / "expected.txt";
    if (renew) {
      std::ofstream(golden, std::ios::binary) << told;
    } else {
      CHECK(told == text_of(golden).value_or("(no expected.txt)"));
    }
  }
}

TEST_CASE("rules: the plan that is nearly bad hears nothing of that rule") {
  for (const std::string& folder : rule_folders()) {
    CAPTURE(folder);
    CHECK(judged(folder, "near.yaml") == "");
  }
}

TEST_CASE("rules: switched off, a rule says nothing of its bad plan") {
  for (const std::string& folder : rule_folders()) {
    CAPTURE(folder);
    diagnostic::Diagnostics said;
    auto loaded =
        load::load_garden("garden.yaml", load::embedded_catalogue(), reader_of(folder), said);
    REQUIRE(loaded);
    const auto plan = load::load_plan("bad.yaml", *loaded, reader_of(folder), said);
    REQUIRE(plan);
    const auto rule = garden::parse_rule(folder);
    REQUIRE(rule);
    loaded->garden.policy.settings[static_cast<std::size_t>(*rule)] = garden::Setting::Off;
    const ledger::SiteClimates climates(loaded->garden, loaded->catalogue);
    const auto judgement = check::judge(loaded->garden, loaded->catalogue, climates, *plan);
    CHECK(lines_of(judgement.findings, folder) == "");
  }
}

TEST_CASE("rules: each has a folder with both plans, and each folder a rule") {
  const std::set<std::string> wanted = rules_to_show();
  const std::vector<std::string> folders = rule_folders();
  CHECK(std::set<std::string>(folders.begin(), folders.end()) == wanted);
  for (const std::string& rule : wanted) {
    for (const char* file : {"garden.yaml", "bad.yaml", "near.yaml", "expected.txt"}) {
      const std::string path = rule + "/" + file;
      CAPTURE(path);
      CHECK(fs::exists(kFolders / path));
    }
  }
}

TEST_CASE("rules: each that looks at a stand has its function, its words and a source") {
  std::set<garden::RuleId> of_stands;
  for (const rules::Rule& rule : rules::stand_rules()) {
    const std::string name(garden::card(rule.id).name);
    CAPTURE(name);
    CHECK(of_stands.insert(rule.id).second);
    CHECK((rule.judge != nullptr || rule.judge_stand != nullptr || rule.judge_outcome != nullptr));
    CHECK((rule.describe != nullptr));
    CHECK_FALSE(rule.references.empty());
  }
}

TEST_CASE("rules: each has a file of its name: of stands in rules, of beds and gardens in check") {
  std::set<garden::RuleId> of_stands;
  for (const rules::Rule& rule : rules::stand_rules()) of_stands.insert(rule.id);
  for (std::size_t i = 0; i < garden::kRuleCount; ++i) {
    const auto rule = static_cast<garden::RuleId>(i);
    std::string file(garden::card(rule).name);
    std::replace(file.begin(), file.end(), '-', '_');
    const fs::path folder = of_stands.count(rule) > 0 ? "src/rules" : "src/check";
    CAPTURE(file);
    const auto text = text_of(kRoot / folder / (file + ".cpp"));
    REQUIRE(text.has_value());
    CHECK(text->rfind("// ", 0) == 0);  // begins with what it is about
  }
}

TEST_CASE(
    "rules: table, README and the schema of a garden name the same rules, settings and words") {
  const auto readme = text_of(kRoot / "README.md");
  const auto schema = text_of(kRoot / "tools/schema/garden.schema.json");
  for (const garden::RuleCard& card : garden::kRuleCards) {
    const std::string name(card.name);
    CAPTURE(name);
    const std::string row = "| `" + name + "` | " + std::string(card.summary) + " | " +
                            std::string(garden::name(card.setting)) + " |";
    if (readme) CHECK(readme->find(row) != std::string::npos);  // a source package may leave it out
    if (schema) CHECK(schema->find("\"" + name + "\"") != std::string::npos);
  }
}
