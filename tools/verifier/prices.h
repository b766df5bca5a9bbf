#pragma once

#include <string>
#include <vector>

#include "claims.h"
#include "wanted.h"

namespace aftercrop::verifier {

/// The certificate's prices by crop and week, and what the bound adds up from them.
class Prices {
 public:
  /// `objections`: weeks priced twice or not at all, prices that are negative or off the scale.
  Prices(const Claims& claims, const garden::Garden& garden, const catalogue::Catalogue& catalogue,
         const Wanted& wanted, std::vector<std::string>& objections);

  /// What a stand on so much land earns.
  [[nodiscard]] double profit(const catalogue::Crop& crop, const ledger::StandSpec& spec,
                              double area_m2) const;
  /// What no plan's wants, gifts of the past and hands can earn beyond what its beds earn.
  [[nodiscard]] double beside_beds() const;

 private:
  void read_supply(const Claims& claims, const catalogue::Catalogue& catalogue,
                   std::vector<std::string>& objections);
  void read_work(const Claims& claims, std::vector<std::string>& objections);

  const garden::Garden* garden_;
  const Wanted* wanted_;
  Harvest per_m2_;
  std::map<calendar::Week, double> per_hour_;
};

}  // namespace aftercrop::verifier
