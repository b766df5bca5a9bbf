#pragma once

#include <functional>
#include <string>
#include <vector>

#include "aftercrop/load/load.h"
#include "claims.h"

namespace aftercrop::verifier {

/// What became of a certificate's claims.
struct Proof {
  std::vector<std::string> lines;    ///< what was looked at, a line a claim
  std::vector<std::string> refuted;  ///< claims that do not hold, or do not follow
  int open_classes = 0;              ///< whose bound was neither proved nor refuted in the time
  double value = 0.0;                ///< of the plan, as its ledgers say
  double bound = 0.0;  ///< proved here; above the certificate's where classes are open
  [[nodiscard]] bool holds() const { return refuted.empty() && open_classes == 0; }
  [[nodiscard]] double gap() const;
};

/// Derives every claim again. `seconds` tells the time that was used, `within` how much there is.
[[nodiscard]] Proof prove(const load::LoadedGarden& loaded, const garden::Plan& plan,
                          const Claims& claims, double within,
                          const std::function<double()>& seconds);

}  // namespace aftercrop::verifier
