#pragma once

#include <memory>
#include <vector>

#include "aftercrop/check/bed_run.h"
#include "aftercrop/check/way_out.h"

namespace aftercrop::check {

/// The finding that a way out is looked for.
struct Trouble {
  garden::RuleId rule = garden::RuleId::FamilyBreak;
  garden::BedId bed;
  const garden::Planting* planting = nullptr;  ///< null: about idle ground
  diagnostic::Severity severity = diagnostic::Severity::Warning;
  calendar::WeekSpan weeks;               ///< of the stand, or of the bare ground
  const rules::Breach* breach = nullptr;  ///< null for rules about whole beds
};

/// Looks for changes of one stand that clear a finding, by trying them on the beds concerned.
class WayFinder {
 public:
  /// One case and one run a bed, in the garden's order; they must outlive the finder.
  WayFinder(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
            const std::vector<BedCase>& cases, const std::vector<BedRun>& runs)
      : garden_(&garden), catalogue_(&catalogue), cases_(&cases), runs_(&runs) {}

  /// The first that works, in the order in which a grower would think of them. Empty where none of
  /// those tried does, or where the finder has tried enough for one plan.
  [[nodiscard]] std::optional<WayOut> find(const Trouble& trouble);
  /// It has tried enough for one plan, and looks no further.
  [[nodiscard]] bool tired() const;

 private:
  using Offer = std::vector<WayOut>;
  [[nodiscard]] bool works(WayOut& way, const Trouble& trouble);
  [[nodiscard]] bool quickly_out(const WayOut& way, const Trouble& trouble);
  [[nodiscard]] bool refused_at_once(const Change& change, const Trouble& trouble);
  [[nodiscard]] Offer offers(const Trouble& trouble) const;
  void offer_moves(const Trouble& trouble, int first, int last, Offer& out) const;
  void offer_beds(const Trouble& trouble, Offer& out) const;
  void offer_endings(const garden::Planting& planting, Offer& out) const;
  void offer_other_ends(const garden::Planting& planting, int longest, Offer& out) const;
  void offer_forecrop(const Trouble& trouble, Offer& out) const;
  void offer_swaps(const Trouble& trouble, Offer& out) const;
  /// What a cover has to be.
  struct Kind {
    bool legume = false;
    bool fumigant = false;
  };
  void offer_covers(const Trouble& trouble, Kind kind, Offer& out) const;
  [[nodiscard]] std::optional<WayOut> cover_from(const Trouble& trouble, catalogue::CropId id,
                                                 calendar::Week start, calendar::Week until) const;
  [[nodiscard]] const garden::Planting* stand_before(const Trouble& trouble) const;
  [[nodiscard]] calendar::WeekSpan gap_around(garden::BedId bed, calendar::WeekSpan weeks,
                                              const garden::Planting* own) const;

  const garden::Garden* garden_;
  const catalogue::Catalogue* catalogue_;
  const std::vector<BedCase>* cases_;
  const std::vector<BedRun>* runs_;
  int lived_ = 0;  ///< weeks, in trials
};

/// The planting with another start: as long as crop and site then ask, its plants raised as long
/// before. Empty where it does not ripen from there.
[[nodiscard]] std::optional<garden::Planting> moved(const garden::Planting& planting,
                                                    calendar::Week start,
                                                    const catalogue::Catalogue& catalogue,
                                                    const climate::SiteClimate& site);

}  // namespace aftercrop::check
