#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "emit/amounts.h"
#include "emit/feeding.h"
#include "emit/stand_tasks.h"

namespace aftercrop::emit {
namespace {

constexpr int kDaysForTest = 21;    // a laboratory's usual time, common practice
constexpr int kDaysToTake = 7;      // to find an hour for it
constexpr int kDaysForPlants = 14;  // young plants live on what they came with, common practice

Task feed_task(const Feeding& feeding, const garden::Garden& garden,
               const catalogue::Catalogue& catalogue) {
  Task task;
  task.kind = TaskKind::Feed;
  task.date = feeding.date;
  task.bed = feeding.planting->bed;
  task.crop = feeding.planting->crop;
  task.title = fmt::format("Feed the bed for {}", short_name(catalogue.crop(task.crop)));
  task.detail = fmt::format("{} of nitrogen is missing for the whole bed",
                            mass_text(feeding.nitrogen_g / 1000.0, garden.units));
  const std::string doses = doses_text(feeding.doses, catalogue, garden.units);
  if (!doses.empty()) task.detail += ": " + doses;
  task.caution = feeding_caution(feeding, catalogue, garden.units);
  if (feeding.beside_rows) {
    task.detail +=
        "; the bed was taken until shortly before it was sown: in a band beside the rows "
        "now that the seedlings stand, and not onto them";
    const calendar::Date last = feeding.planting->to.plus_days(-1);
    return until(task, {std::min(task.date.plus_days(kDaysForPlants), last),
                        "the plants need it from then on"});
  }
  const bool plants = feeding.planting->raised || catalogue.crop(task.crop).transplanted();
  if (plants) {
    return until(task, {feeding.planting->from.plus_days(kDaysForPlants),
                        "the plants need it from then on"});
  }
  return until(task, {task.date, "meals burn seed that is sown within two weeks"});
}

}  // namespace

void add_feeding(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                 const ledger::BedAccount& account, std::vector<Task>& out) {
  const calendar::Date since = calendar::monday(garden.seasons.first);
  std::set<int> tested;
  for (const Feeding& feeding : feedings(garden, catalogue, account, since)) {
    if (tested.insert(feeding.date.year()).second) {
      Task test;
      test.kind = TaskKind::SoilTest;
      test.date = feeding.date.plus_days(-kDaysForTest - kDaysToTake);
      test.bed = account.bed;
      test.title = "Take a soil sample for nitrate";
      test.detail = "before anything is spread; enter the result under `tests:` and plan again";
      out.push_back(until(
          test, {feeding.date.plus_days(-kDaysForTest), "the laboratory takes about three weeks"}));
    }
    out.push_back(feed_task(feeding, garden, catalogue));
  }
}

void add_applications(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
                      std::vector<Task>& out) {
  const calendar::Date since = calendar::monday(garden.seasons.first);
  for (const garden::Application& spread : garden.applications) {
    if (spread.date < since) continue;
    const catalogue::Amendment& material = catalogue.amendment(spread.material);
    const double kg = spread.kg_per_m2 * garden.bed(spread.bed).area.value();
    Task task;
    task.kind = TaskKind::Feed;
    task.date = spread.date;
    task.bed = spread.bed;
    task.title = fmt::format("Spread {}", material.name);
    task.detail = fmt::format("{} for the whole bed", spread_text(kg, material, garden.units));
    task.caution = caution_text(material.cautions, catalogue, garden.units);
    const calendar::Date sunday = calendar::monday(calendar::week_of(spread.date)).plus_days(6);
    out.push_back(until(task, {sunday, "the bed's account counts on it from this week"}));
  }
}

}  // namespace aftercrop::emit
