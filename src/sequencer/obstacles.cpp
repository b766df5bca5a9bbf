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

/// Stands of the want's crop that serve it, with what one bed of the kind then gives; in order of
/// start.
struct Land::Stands {
  std::vector<std::pair<ledger::Stand, double>> list;

  void sort() {
    std::stable_sort(list.begin(), list.end(), [](const auto& a, const auto& b) {
      return a.first.spec.weeks.first < b.first.spec.weeks.first;
    });
  }
};

Land::Land(const WantRow& want, const std::vector<BedClass>& classes, const Objective& objective,
           const Assignment& plan)
    : want_(&want), classes_(&classes), objective_(&objective), plan_(&plan) {
  for (const BedClass& beds : classes) {
    const auto [stands, fresh] = as_is_.try_emplace(beds.kind.get());
    if (!fresh) continue;
    const catalogue::CropId crop = beds.ledger->garden().wants[want.want].crop;
    for (const Choice& choice : beds.choices()) {
      if (choice.stand.spec.crop != crop) continue;
      const double m2 = share_of(choice.supply, want);
      if (m2 <= 0.0) continue;
      best_share_ = std::max(best_share_, m2 / beds.area_m2);
      stands->second.list.emplace_back(choice.stand, m2);
    }
    stands->second.sort();
  }
}

Land::~Land() = default;

const climate::SiteClimate& Land::fleece_site(const BedClass& beds) {
  const bool open = beds.ledger->bed().shelter == garden::Shelter::Open;
  const garden::Shelter shelter = open ? garden::Shelter::Fleece : garden::Shelter::Tunnel;
  std::unique_ptr<climate::SiteClimate>& site = fleece_sites_[shelter];
  if (site == nullptr) {
    const garden::Garden& garden = beds.ledger->garden();
    site = std::make_unique<climate::SiteClimate>(
        garden.site.normals, shelter, beds.ledger->site().covered(),
        beds.ledger->catalogue().coefficients.site, garden.site.weather);
    const catalogue::Crop& crop = beds.ledger->catalogue().crop(garden.wants[want_->want].crop);
    site->prepare(crop.base_c, crop.cap_c);
  }
  return *site;
}

void Land::prepare_fleece() {
  std::map<const climate::SiteClimate*, std::vector<ledger::StandSpec>> specs;
  for (const BedClass& beds : *classes_) {
    const garden::Garden& garden = beds.ledger->garden();
    const catalogue::Catalogue& rows = beds.ledger->catalogue();
    const climate::SiteClimate& site = fleece_site(beds);
    fleece_ledgers_.push_back(std::make_unique<ledger::BedLedger>(rows, garden, beds.beds.front(),
                                                                  site, beds.ledger->tracked()));
    const auto [offered, new_site] = specs.try_emplace(&site);
    if (new_site) {
      offered->second =
          candidate_stands_of(garden, rows, site, *objective_, garden.wants[want_->want].crop);
    }
    const auto [stands, fresh] = fleece_.try_emplace(beds.kind.get());
    if (!fresh) continue;
    for (const ledger::StandSpec& spec : offered->second) {
      const double m2 = share_of(objective_->supply_of(spec, beds.area_m2), *want_);
      if (m2 <= 0.0 || spec.weeks.first < beds.start.week) continue;
      stands->second.list.emplace_back(fleece_ledgers_.back()->make_stand(spec), m2);
    }
    stands->second.sort();
  }
}

double Land::most_m2(const Obstacles& obstacles, double enough) {
  if (!obstacles.season && fleece_.empty()) prepare_fleece();
  double sum = 0.0;
  for (std::size_t g = 0; g < classes_->size() && sum < enough; ++g) {
    for (const garden::BedId bed : (*classes_)[g].beds) sum += bed_m2(g, bed, obstacles);
  }
  return sum;
}

/// The best stands that fit one after the other, taken greedily by what they give.
double Land::bed_m2(std::size_t bed_class, garden::BedId bed, const Obstacles& obstacles) {
  const BedClass& beds = (*classes_)[bed_class];
  const ledger::BedLedger& ledger = obstacles.season ? *beds.ledger : *fleece_ledgers_[bed_class];
  const Stands& stands = (obstacles.season ? as_is_ : fleece_).at(beds.kind.get());
  const catalogue::CropId crop = ledger.garden().wants[want_->want].crop;
  // What else the plan has here, in order of start; the crop's own stands make room.
  std::vector<const ledger::Stand*> others;
  if (obstacles.other_wants) {
    for (const int at : plan_->paths[bed.place()].choices) {
      const ledger::Stand& stand = beds.choices()[static_cast<std::size_t>(at)].stand;
      if (stand.spec.crop != crop) others.push_back(&stand);
    }
  }
  double best = 0.0;
  ledger::BedState state = obstacles.history ? beds.start : blank(beds);
  std::size_t lived = 0;
  for (const auto& [stand, m2] : stands.list) {
    const WeekSpan weeks = stand.spec.weeks;
    const bool taken = std::any_of(others.begin(), others.end(), [&](const auto* other) {
      return !other->cover && meet(other->spec.weeks, weeks);  // covers give way
    });
    if (taken || m2 <= best || state.week > weeks.first) continue;
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
    rules::judge_before({ledger, state, stand, beds.clubroot_seen}, breaches);
    bool refused = false;
    for (const rules::Breach& breach : breaches) {
      if (rules::setting_of(breach, ledger.garden().policy) != garden::Setting::Require) continue;
      refusing_.insert(breach.rule);
      refused = refused || obstacles.rules.contains(breach.rule);
    }
    if (!refused) best = m2;
  }
  return best;
}

}  // namespace aftercrop::sequencer
