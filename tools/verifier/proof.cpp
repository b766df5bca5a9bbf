#include "proof.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "paths.h"
#include "plan_value.h"
#include "prices.h"

namespace aftercrop::verifier {
namespace {

constexpr double kSame = 1e-6;           // relative, of values that ledgers add up
constexpr double kSameSum = 1e-9;        // relative, of sums of the certificate's own numbers
constexpr double kRoundingShare = 1e-6;  // that bounds are rounded up by
constexpr double kTiny = 1e-9;

bool same(double a, double b, double relative) {
  return std::abs(a - b) <= kTiny + relative * std::max(std::abs(a), std::abs(b));
}

class Prover {
 public:
  Prover(const load::LoadedGarden& loaded, const garden::Plan& plan, const Claims& claims,
         double within, const std::function<double()>& seconds)
      : garden_(loaded.garden),
        catalogue_(loaded.catalogue),
        plan_(plan),
        claims_(claims),
        within_(within),
        seconds_(seconds),
        climates_(loaded.garden, loaded.catalogue),
        wanted_(loaded.garden, loaded.catalogue),
        prices_(claims, loaded.garden, loaded.catalogue, wanted_, proof_.refuted),
        grounds_(loaded.garden, loaded.catalogue, climates_, wanted_) {}

  Proof run() {
    weigh_plan();
    const std::size_t objections = proof_.refuted.size();
    match_beds();
    // Without every bed in its class once there is nothing to add up.
    if (proof_.refuted.size() > objections) return std::move(proof_);
    double sum = prices_.beside_beds();
    double claimed = sum;
    for (std::size_t g = 0; g < claims_.classes.size(); ++g) {
      const double beds = static_cast<double>(claims_.classes[g].beds.size());
      claimed += beds * claims_.classes[g].per_bed;
      sum += beds * per_bed(g);
    }
    compare_bound(claimed, sum);
    return std::move(proof_);
  }

 private:
  void refute(std::string words) { proof_.refuted.push_back(std::move(words)); }

  void weigh_plan() {
    const PlanValue value = value_of(garden_, catalogue_, climates_, plan_);
    for (const std::string& objection : value.objections) refute(objection);
    for (std::size_t i = 0; i < kTerms; ++i) {
      if (same(value.terms.of[i], claims_.value.of[i], kSame)) continue;
      refute(fmt::format("value, {}: stated {}, the ledgers say {}", kTermNames[i],
                         claims_.value.of[i], value.terms.of[i]));
    }
    proof_.value = value.terms.total();
    if (!same(claims_.value.total(), claims_.total, kSameSum)) {
      refute(fmt::format("value, total: stated {}, its terms add up to {}", claims_.total,
                         claims_.value.total()));
    }
    if (claims_.garden != garden_.name) {
      refute(fmt::format("it is of the garden \"{}\", this one is \"{}\"", claims_.garden,
                         garden_.name));
    }
    proof_.lines.push_back(fmt::format("plan: {} stands, worth {:.6g} by its ledgers",
                                       plan_.plantings.size(), proof_.value));
  }

  void match_beds() {
    std::vector<int> seen(garden_.beds.size(), 0);
    for (const Claims::BedClass& one : claims_.classes) {
      Ground first;
      for (const std::string& name : one.beds) {
        const auto beds = garden_.find(name);
        if (beds.size() != 1 || garden_.bed(beds.front()).name != name) {
          refute(fmt::format("the garden has no bed or section \"{}\"", name));
          continue;
        }
        if (++seen[beds.front().place()] > 1) refute(fmt::format("bed {} is there twice", name));
        Ground ground = grounds_.begin(beds.front());
        if (!first.ledger) {
          first = std::move(ground);
        } else if (const auto difference = grounds_.unlike(first, ground)) {
          refute(*difference + ", yet they are in one class");
        }
      }
      classes_.push_back(std::move(first));
    }
    for (std::size_t i = 0; i < seen.size(); ++i) {
      if (seen[i] == 0) refute(fmt::format("bed {} is in no class", garden_.beds[i].name));
    }
  }

  /// The bound speaks of plans made of possible stands: this one has to be among them.
  void match_stands(garden::BedId bed, const Ground& ground) {
    for (const garden::Planting& planting : plan_.plantings) {
      if (planting.bed != bed) continue;
      const auto same_row = [&](const garden::Planting& old) {
        return old.bed == bed && old.crop == planting.crop && old.from == planting.from;
      };
      if (std::any_of(garden_.history.begin(), garden_.history.end(), same_row)) continue;
      const ledger::StandSpec spec = ledger::spec_of(planting);
      const bool possible =
          std::any_of(ground.options.begin(), ground.options.end(), [&](const Option& option) {
            const ledger::StandSpec& other = option.stand.spec;
            return other.crop == spec.crop && other.weeks == spec.weeks &&
                   other.harvest == spec.harvest && other.ending == spec.ending;
          });
      if (possible) continue;
      refute(fmt::format("bed {}: {} from {} is no stand that plans are made of",
                         garden_.bed(bed).name, catalogue_.crop(spec.crop).id,
                         planting.from.text()));
    }
  }

  /// What no bed of the class is proved to exceed.
  double per_bed(std::size_t place) {
    const Claims::BedClass& claim = claims_.classes[place];
    Ground& ground = classes_[place];
    grounds_.fill(ground);
    for (Option& option : ground.options) {
      const ledger::StandSpec& spec = option.stand.spec;
      option.profit = prices_.profit(catalogue_.crop(spec.crop), spec, ground.area_m2);
    }
    for (const std::string& bed : claim.beds) match_stands(garden_.find(bed).front(), ground);
    const Relaxation relaxation(ground, claim.fees, proof_.refuted);
    const std::string name = fmt::format(
        "class {}, bed {}{}", place + 1, claim.beds.front(),
        claim.beds.size() > 1 ? fmt::format(" and {} like it", claim.beds.size() - 1) : "");
    if (claim.per_bed > relaxation.loosest() + slack(claim.per_bed)) {
      refute(fmt::format("{}: the bound {} is above what prices and fees alone give ({})", name,
                         claim.per_bed, relaxation.loosest()));
    }
    if (!on_scale(claim.per_bed)) {
      refute(fmt::format("{}: the bound {} is no multiple of 1/2^30", name, claim.per_bed));
    }
    const double classes_left = static_cast<double>(claims_.classes.size() - place);
    const double until = seconds_() + (within_ - seconds_()) / classes_left;
    const Followed found =
        follow_paths(ground, relaxation, claim.per_bed, [&] { return seconds_() >= until; });
    return tell(name, claim.per_bed, relaxation.whole(), found);
  }

  double tell(const std::string& name, double claimed, double relaxed, const Followed& found) {
    if (found.above) {
      std::string stands;
      for (const std::string& stand : found.stands) stands += "\n    " + stand;
      refute(fmt::format("{}: stated that no bed earns more than {}, yet this path earns {}:{}",
                         name, claimed, *found.above, stands));
      return std::max(relaxed, *found.above);
    }
    if (found.finished) {
      proof_.lines.push_back(fmt::format("{}: none earns more than {:.6g}: proved, {} beginnings",
                                         name, claimed, found.beginnings));
      return claimed;
    }
    ++proof_.open_classes;
    proof_.lines.push_back(
        fmt::format("{}: none earns more than {:.6g}: not proved in the time, {} beginnings; "
                    "none earns more than {:.6g}: proved",
                    name, claimed, found.beginnings, relaxed));
    return relaxed;
  }

  void compare_bound(double claimed, double proved) {
    const double margin = kRoundingShare * (1.0 + std::abs(claimed));
    if (!same(claims_.bound, claimed + margin, kSameSum)) {
      refute(fmt::format("bound: stated {}, prices and class bounds add up to {}", claims_.bound,
                         claimed + margin));
    }
    if (proof_.value > claims_.bound) {
      refute(fmt::format("the plan is worth {}, above the bound {}", proof_.value, claims_.bound));
    }
    proof_.bound = proved + kRoundingShare * (1.0 + std::abs(proved));
    proof_.lines.push_back(
        fmt::format("bound: {} prices and {} class bounds add up to {:.6g}",
                    claims_.supply.size() + claims_.roundings.size() + claims_.work.size(),
                    claims_.classes.size(), claimed + margin));
  }

  const garden::Garden& garden_;
  const catalogue::Catalogue& catalogue_;
  const garden::Plan& plan_;
  const Claims& claims_;
  double within_;
  const std::function<double()>& seconds_;
  ledger::SiteClimates climates_;
  Wanted wanted_;
  Proof proof_;
  Prices prices_;
  Grounds grounds_;
  std::vector<Ground> classes_;
};

}  // namespace

double Proof::gap() const { return bound > 0.0 ? std::max(0.0, (bound - value) / bound) : 0.0; }

Proof prove(const load::LoadedGarden& loaded, const garden::Plan& plan, const Claims& claims,
            double within, const std::function<double()>& seconds) {
  return Prover(loaded, plan, claims, within, seconds).run();
}

}  // namespace aftercrop::verifier
