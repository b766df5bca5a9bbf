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
  /// What stands have to make up for of a want, in whole stands: see Certificate::RoundingPrice.
  struct Rounding {
    const Wanted::Want* want;
    double unit_m2 = 0.0;
    double rest_m2 = 0.0;   ///< of what is wanted beyond whole units
    double least_m2 = 0.0;  ///< that stands count for and what is missing make up
    double per_m2 = 0.0;
    [[nodiscard]] double counted(double m2) const;
  };
  void read_roundings(const Claims& claims, const catalogue::Catalogue& catalogue,
                      std::vector<std::string>& objections);
  [[nodiscard]] static double in_window(const Harvest& harvest, const Wanted::Want& want);
  void read_work(const Claims& claims, std::vector<std::string>& objections);

  const garden::Garden* garden_;
  const Wanted* wanted_;
  Harvest per_m2_;
  std::vector<Rounding> roundings_;
  std::map<calendar::Week, double> per_hour_;
};

}  // namespace aftercrop::verifier
