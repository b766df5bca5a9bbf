#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "aftercrop/ledger/account.h"
#include "claims.h"
#include "wanted.h"

namespace aftercrop::verifier {

/// A stand that a bed of one class may carry.
struct Option {
  ledger::Stand stand;
  double worth = 0.0;    ///< that shares are taken of
  Terms fixed;           ///< what it costs whatever the bed's state
  double profit = 0.0;   ///< at the certificate's prices, `fixed` not taken off
  bool decided = false;  ///< by the garden file: there on every path, and its rules are not priced
};

/// One class of beds: where they stand at the start, and what may follow.
struct Ground {
  garden::BedId bed;  ///< any of them
  double area_m2 = 0.0;
  std::unique_ptr<ledger::BedLedger> ledger;
  ledger::BedState start;
  bool covers_bind = false;
  std::vector<Option> options;
  std::vector<std::vector<std::size_t>> leaving;  ///< options by their first week
  std::vector<char> may_rest;                     ///< weeks that may lie idle
  [[nodiscard]] int weeks() const { return static_cast<int>(leaving.size()); }
  [[nodiscard]] std::size_t node(calendar::Week week) const {
    return static_cast<std::size_t>((week - start.week).count());
  }
};

/// Makes the grounds of a garden's beds.
class Grounds {
 public:
  /// All must outlive it.
  Grounds(const garden::Garden& garden, const catalogue::Catalogue& catalogue,
          const ledger::SiteClimates& climates, const Wanted& wanted);

  /// Start of a bed: ledger and state at the first week of the seasons that is free.
  [[nodiscard]] Ground begin(garden::BedId bed) const;
  /// Why a path of the one is not a path of the other, with the same costs; empty if it is.
  [[nodiscard]] std::optional<std::string> unlike(const Ground& one, const Ground& other) const;
  /// Fills in what may stand there; profits are left at nought.
  void fill(Ground& ground);

 private:
  [[nodiscard]] std::vector<const garden::Planting*> decided(const Ground& ground) const;
  void add_decided(Ground& ground, std::vector<calendar::WeekSpan>& taken) const;
  const std::vector<ledger::StandSpec>& stands_at(garden::Shelter shelter, bool disease_seen);

  const garden::Garden* garden_;
  const catalogue::Catalogue* catalogue_;
  const ledger::SiteClimates* climates_;
  const Wanted* wanted_;
  std::map<std::pair<garden::Shelter, bool>, std::vector<ledger::StandSpec>> stands_;
};

}  // namespace aftercrop::verifier
