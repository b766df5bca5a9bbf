#include "sequencer/obstacles.h"

#include <algorithm>
#include <deque>

#include "sequencer/candidates.h"

namespace aftercrop::sequencer {
namespace {

using calendar::Week;
using calendar::WeekSpan;

double share_of(const Supply& supply, const WantRow& want) {
  double m2 = 0.0;
  for (const auto& [row, amount] : supply) {
    if (std::count(want.supplies.begin(), want.supplies.end(), row) > 0) m2 += amount;
  }
  return m2;
}

/// A bed of the class with nothing behind it.
ledger::BedState blank(const BedClass& beds) {
  ledger::BedState state = beds.ledger->opening();
  state.week = beds.start.week;
  state.known_since = beds.start.week;
  return state;
}

bool meet(const WeekSpan& a, const WeekSpan& b) { return a.first < b.past && b.first < a.past; }

}  // namespace

/// Stands of the want's crop that serve it, with what one bed of the class then gives.
struct Land::Stands {
  const BedClass* beds = nullptr;
  std::unique_ptr<climate::SiteClimate> site;  ///< fleece only
  std::unique_ptr<ledger::BedLedger> ledger;   ///< fleece only
  std::vector<std::pair<ledger::Stand, double>> list;
};

Land::Land(const WantRow& want, const std::vector<BedClass>& classes, const Objective& objective,
           const Assignment& plan)
    : want_(&want), classes_(&classes), objective_(&objective), plan_(&plan) {
  for (const BedClass& beds : classes) {
    Stands stands;
    stands.beds = &beds;
    const catalogue::CropId crop = beds.ledger->garden().wants[want.want].crop;
    for (const Choice& choice : beds.choices) {
      const double m2 = share_of(choice.supply, want);
      if (choice.stand.spec.crop != crop || m2 <= 0.0) continue;
      best_share_ = std::max(best_share_, m2 / beds.area_m2);
      stands.list.emplace_back(choice.stand, m2);
    }
    as_is_.push_back(std::move(stands));
  }
}

Land::~Land() = default;

void Land::prepare_fleece() {
  for (const BedClass& beds : *classes_) {
    const garden::Garden& garden = beds.ledger->garden();
    const catalogue::Catalogue& rows = beds.ledger->catalogue();
    Stands stands;
    stands.beds = &beds;
    const bool open = beds.ledger->bed().shelter == garden::Shelter::Open;
    const garden::Shelter shelter = open ? garden::Shelter::Fleece : garden::Shelter::Tunnel;
    stands.site = std::make_unique<climate::SiteClimate>(
        garden.site.normals, shelter, ledger::covered_weeks(garden), garden.site.weather);
    const catalogue::CropId crop = garden.wants[want_->want].crop;
    stands.site->prepare(rows.crop(crop).base_c, rows.crop(crop).cap_c);
    stands.ledger = std::make_unique<ledger::BedLedger>(rows, garden, beds.beds.front(),
                                                        *stands.site, beds.ledger->tracked());
    for (const ledger::StandSpec& spec :
         candidate_stands_of(garden, rows, *stands.site, *objective_, crop)) {
      const double m2 = share_of(objective_->supply_of(spec, beds.area_m2), *want_);
      if (m2 <= 0.0 || spec.weeks.first < beds.start.week) continue;
      stands.list.emplace_back(stands.ledger->make_stand(spec), m2);
    }
    fleece_.push_back(std::move(stands));
  }
}

double Land::most_m2(const Obstacles& obstacles) {
  if (!obstacles.season && fleece_.empty()) prepare_fleece();
  const std::vector<Stands>& stands = obstacles.season ? as_is_ : fleece_;
  double sum = 0.0;
  for (std::size_t g = 0; g < classes_->size(); ++g) {
    for (const garden::BedId bed : (*classes_)[g].beds) sum += bed_m2(bed, stands[g], obstacles);
  }
  return sum;
}

/// The best stands that fit one after the other, taken greedily by what they give.
double Land::bed_m2(garden::BedId bed, const Stands& stands, const Obstacles& obstacles) {
  const BedClass& beds = *stands.beds;
  const ledger::BedLedger& ledger = stands.ledger ? *stands.ledger : *beds.ledger;
  const catalogue::CropId crop = ledger.garden().wants[want_->want].crop;
  // What else the plan has here, in order of start; the crop's own stands make room.
  std::vector<const ledger::Stand*> others;
  if (obstacles.other_wants) {
    for (const int at : plan_->paths[bed.place()].choices) {
      const ledger::Stand& stand = beds.choices[static_cast<std::size_t>(at)].stand;
      if (stand.spec.crop != crop) others.push_back(&stand);
    }
  }
  double best = 0.0;
  ledger::BedState state = obstacles.history ? beds.start : blank(beds);
  std::size_t lived = 0;
  std::vector<const std::pair<ledger::Stand, double>*> order;
  for (const auto& one : stands.list) order.push_back(&one);
  std::stable_sort(order.begin(), order.end(), [](const auto* a, const auto* b) {
    return a->first.spec.weeks.first < b->first.spec.weeks.first;
  });
  for (const auto* one : order) {
    const WeekSpan weeks = one->first.spec.weeks;
    const bool taken = std::any_of(others.begin(), others.end(), [&](const auto* other) {
      return !other->cover && meet(other->spec.weeks, weeks);  // covers give way
    });
    if (taken || one->second <= best || state.week > weeks.first) continue;
    while (lived < others.size() && others[lived]->spec.weeks.past <= weeks.first) {
      if (others[lived]->spec.weeks.first < state.week) {
        ++lived;
        continue;
      }
      (void)ledger.idle(state, others[lived]->spec.weeks.first);
      (void)ledger.advance(state, *others[lived++]);
    }
    (void)ledger.idle(state, weeks.first);
    rules::Breaches breaches;
    rules::judge_before({ledger, state, one->first, beds.clubroot_seen}, breaches);
    bool refused = false;
    for (const rules::Breach& breach : breaches) {
      if (rules::setting_of(breach, ledger.garden().policy) != garden::Setting::Require) continue;
      refusing_.insert(breach.rule);
      refused = refused || obstacles.rules.contains(breach.rule);
    }
    if (!refused) best = one->second;
  }
  return best;
}

}  // namespace aftercrop::sequencer
