#pragma once

#include <doctest/doctest.h>

#include <memory>
#include <string>
#include <vector>

#include "aftercrop/check/check.h"
#include "aftercrop/load/load.h"

// What the checker says of a rotation that is typed in a line.
namespace aftercrop::support {

using diagnostic::Severity;

struct Seen {
  const char* disease;
  const char* date;
  garden::SightingSeverity severity = garden::SightingSeverity::Some;
};

/// What the checker says of one plan.
struct Verdict {
  std::vector<diagnostic::Diagnostic> findings;

  [[nodiscard]] int count(const std::string& rule, Severity least) const {
    int number = 0;
    for (const auto& one : findings) number += one.id == rule && one.severity >= least ? 1 : 0;
    return number;
  }
  [[nodiscard]] bool warns(const std::string& rule) const {
    return count(rule, Severity::Warning) > 0;
  }
  [[nodiscard]] bool refuses(const std::string& rule) const {
    return count(rule, Severity::Error) > 0;
  }
  /// Everything that rules of succession say at a severity or above, for the failure message.
  [[nodiscard]] std::string successions(Severity least) const {
    std::string all;
    for (const auto& one : findings) {
      const bool kind = one.id == "family-break" || one.id == "host-return" ||
                        one.id == "prone-on-infected" || one.id == "plant-back";
      if (kind && one.severity >= least) all += one.bed + " " + one.id + ": " + one.message + "\n";
    }
    return all;
  }
};

/// A rotation and all that the checker makes of it.
struct Trial {
  load::Proposal proposal;
  check::Judgement judgement;
};

/// `sightings` are in the first bed.
inline std::unique_ptr<Trial> tried(const std::string& stands,
                                    const std::vector<Seen>& sightings = {}) {
  const std::string text = "plan: proof\nsite: {climate: boston}\n" + stands;
  const load::ReadText read = [&](const std::string&) -> load::TextOrReason { return {text, {}}; };
  diagnostic::Diagnostics said;
  auto proposal = load::load_proposal("plan.yaml", load::embedded_catalogue(), read, said);
  std::string trouble;
  for (const auto& one : said.all()) {
    if (one.severity == Severity::Error) trouble += one.id + ": " + one.message + "\n";
  }
  REQUIRE_MESSAGE(proposal.has_value(), trouble);
  auto trial = std::make_unique<Trial>(Trial{std::move(*proposal), {}});
  garden::Garden& garden = trial->proposal.garden.garden;
  const catalogue::Catalogue& rows = trial->proposal.garden.catalogue;
  for (const Seen& one : sightings) {
    garden::Sighting sighting;
    sighting.bed = garden::BedId(0);
    sighting.disease = *rows.find_pathogen(one.disease);
    sighting.date = *calendar::Date::parse(one.date);
    sighting.severity = one.severity;
    garden.sightings.push_back(sighting);
  }
  const ledger::SiteClimates climates(garden, rows);
  trial->judgement = check::judge(garden, rows, climates, trial->proposal.plan);
  return trial;
}

inline Verdict judged(const std::string& stands, const std::vector<Seen>& sightings = {}) {
  return {tried(stands, sightings)->judgement.findings.all()};
}

/// One bed, one entry a year from `first` on; "-" is a year without a stand.
inline Verdict years(int first, const std::vector<std::string>& crops,
                     const std::vector<Seen>& sightings = {}) {
  std::string listed;
  std::string sown;
  for (std::size_t i = 0; i < crops.size(); ++i) {
    if (crops[i] == "-") continue;
    listed += (listed.empty() ? "" : ", ") + std::to_string(first + static_cast<int>(i));
    sown += (sown.empty() ? "" : ", ") + crops[i];
  }
  return judged("rotation:\n  years: [" + listed + "]\n  beds: {A: [" + sown + "]}\n", sightings);
}

/// A cycle in as many beds as it has steps, so that each step comes round in one of them.
inline Verdict cycle(const std::string& steps, const std::string& beds) {
  return judged("rotation:\n  cycle: [" + steps + "]\n  beds: " + beds + "\n");
}

}  // namespace aftercrop::support
