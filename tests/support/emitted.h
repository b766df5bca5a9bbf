#pragma once

#include <fmt/format.h>

#include <map>
#include <string>
#include <vector>

#include "aftercrop/emit/calendar.h"
#include "aftercrop/ledger/account.h"
#include "aftercrop/load/load.h"
#include "support/reading.h"

// A small garden with a plan and all that is made of it.
namespace aftercrop::support {

/// A name that means something to every form we write.
inline const std::string kNastyName = "=SUM(A1);<b>\"Lise's\", \\plot\\: #1\n\x01 {x}";

inline const std::string kGarden =
    "garden: \"=SUM(A1);<b>\\\"Lise's\\\", \\\\plot\\\\: #1\\n\\x01 {x}\"\n"
    "seasons: {from: 2027-03-01, years: 2}\n"
    "site: {climate: minneapolis}\n"
    "beds:\n"
    "  - {bed: A, length: 4 m, width: 1.2 m}\n"
    "  - {bed: \"B, 'low' <i>\", length: 4 m, width: 1.2 m}\n"
    "wants: [tomatoes]\n";

inline const std::string kPlan =
    "plan: four stands\n"
    "plantings:\n"
    "  - {bed: A, crop: faba-cover, from: 2027-04-12, to: 2027-06-07, ending: cut-roots-left}\n"
    "  - {bed: A, crop: sweet-corn, from: 2027-06-07, harvest: [2027-08-23, 2027-09-06], "
    "to: 2027-09-06, ending: incorporated}\n"
    "  - {bed: A, crop: rye, from: 2027-09-13, to: 2028-05-01, ending: incorporated}\n"
    "  - {bed: \"B, 'low' <i>\", crop: tomato, from: 2027-05-31, raised: 2027-04-12, harvest: "
    "[2027-08-09, 2027-09-27], to: 2027-09-27, ending: harvested-cut, resistance: tolerant, "
    "yield: 5.5 kg/m2, partners: [{crop: basil, at: in-row}]}\n";

struct Emitted {
  load::LoadedGarden loaded;
  garden::Plan plan;
  std::vector<ledger::BedAccount> accounts;
  std::vector<emit::Task> tasks;
  std::vector<emit::OrderLine> order;

  [[nodiscard]] emit::CalendarInput input() const {
    return {loaded.garden, loaded.catalogue, plan, tasks, order, {}};
  }
};

/// Empty if garden or plan cannot be read; `said` tells why.
inline std::optional<garden::Plan> read_plan_text(const load::LoadedGarden& loaded,
                                                  const std::string& plan,
                                                  diagnostic::Diagnostics& said) {
  return load::load_plan("lot/plan.yaml", loaded, reader({{"lot/plan.yaml", plan}}), said);
}

/// The accounts point into the result: it is filled in place.
inline bool fill(Emitted& made, const std::string& garden, const std::string& plan,
                 diagnostic::Diagnostics& said, std::map<std::string, std::string> more = {}) {
  more["lot/garden.yaml"] = garden;
  auto loaded =
      load::load_garden("lot/garden.yaml", load::embedded_catalogue(), reader(more), said);
  if (!loaded) return false;
  made.loaded = std::move(*loaded);
  auto read = read_plan_text(made.loaded, plan, said);
  if (!read) return false;
  made.plan = std::move(*read);
  const garden::Garden& site = made.loaded.garden;
  const ledger::SiteClimates climates(site, made.loaded.catalogue);
  const auto tracked = ledger::tracked_pathogens(site, made.loaded.catalogue, true);
  for (std::size_t i = 0; i < site.beds.size(); ++i) {
    const ledger::BedLedger bed(made.loaded.catalogue, site, garden::BedId(i),
                                climates.of(site.beds[i].shelter), tracked);
    made.accounts.push_back(ledger::account(bed, site, made.plan));
  }
  made.tasks = emit::tasks(site, made.loaded.catalogue, made.plan, made.accounts, climates);
  made.order = emit::order_list(site, made.loaded.catalogue, made.plan, made.accounts, climates);
  return true;
}

}  // namespace aftercrop::support
