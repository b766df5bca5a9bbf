#include "emit/nitrogen_band.h"

#include <doctest/doctest.h>

using namespace aftercrop;
using nitrogen::Cause;
using nitrogen::Pool;

namespace {

constexpr calendar::Week kStart{2000};

/// Supply is 0.5 to 2 of what is said, rain 0 to 3, leaching and the rest are sure.
catalogue::NitrogenCoefficients coefficients() {
  catalogue::NitrogenCoefficients k;
  k.plough_layer_share.value = 0.5;
  k.nitrate_brake.value = 16.0;
  k.recovery.value = 1.0;
  const auto set = [&](Cause cause, double low, double high) {
    k.causes[static_cast<std::size_t>(cause)].low = low;
    k.causes[static_cast<std::size_t>(cause)].high = high;
  };
  set(Cause::SoilSupply, 0.5, 2.0);
  set(Cause::Deposition, 0.0, 3.0);
  set(Cause::Uptake, 0.8, 1.2);
  set(Cause::SoilTest, 0.75, 1.25);
  return k;
}

ledger::BedAccount account_of(std::vector<nitrogen::Posting> postings) {
  ledger::BedAccount account;
  account.from = kStart;
  account.opening.mineral = 20.0;
  account.postings = std::move(postings);
  return account;
}

nitrogen::Posting posting(int week, Cause cause, double kg, Pool pool = Pool::Mineral) {
  return {kStart + calendar::Weeks(week), pool, kg, cause, {}};
}

ledger::StandLine stand_that_needs(double kg) {
  ledger::StandLine line;
  line.stand.spec.weeks = {kStart, kStart + calendar::Weeks(1)};
  line.stand.need = {kg};
  return line;
}

emit::Span last(const ledger::BedAccount& account) {
  return emit::ready_spans(account, coefficients()).back().amount;
}

void check_span(const emit::Span& span, double low, double middle, double high) {
  CHECK(span.low == doctest::Approx(low));
  CHECK(span.middle == doctest::Approx(middle));
  CHECK(span.high == doctest::Approx(high));
}

}  // namespace

TEST_CASE("band: one cause errs the same way all along, two causes add as squares") {
  // 4 + 4 of supply: 4 less, 8 more.
  check_span(last(account_of({posting(0, Cause::SoilSupply, 4), posting(1, Cause::SoilSupply, 4)})),
             24, 28, 36);
  // and 3 of rain, 3 less and 6 more: sqrt(16 + 9) = 5 less, sqrt(64 + 36) = 10 more.
  check_span(last(account_of({posting(0, Cause::SoilSupply, 8), posting(0, Cause::Deposition, 3)})),
             26, 31, 41);
}

TEST_CASE("band: what is washed out takes its share of what may be more or less") {
  // 8 of supply: 28, 24 to 36. Half is lost: 14, 12 to 18.
  check_span(last(account_of({posting(0, Cause::SoilSupply, 8), posting(1, Cause::Leaching, -14)})),
             12, 14, 18);
}

TEST_CASE("band: a crop that is short takes what may be more, and leaves nothing that is less") {
  // 8 of supply: 8 more or 4 less. It needs 5 and gets nothing: 8 - 5 = 3 may be left over.
  ledger::BedAccount account = account_of({posting(0, Cause::SoilSupply, 8)});
  account.stands.push_back(stand_that_needs(5));
  check_span(last(account), 28, 28, 31);
}

TEST_CASE("band: where there may be more a legume may fix less") {
  // 8 more or 4 less; half of the 8 lies where it counts, of 16 that would stop it: a quarter of
  // the 4 that it fixed may have come from the soil.
  ledger::BedAccount account =
      account_of({posting(0, Cause::SoilSupply, 8), posting(0, Cause::Fixation, 4, Pool::Crop)});
  account.stands.push_back(stand_that_needs(4));
  check_span(last(account), 24, 28, 35);
}

TEST_CASE("band: a soil test starts it anew") {
  // 28 before; the test says 40, a quarter either way.
  check_span(last(account_of({posting(0, Cause::SoilSupply, 8), posting(3, Cause::SoilTest, 12)})),
             30, 40, 50);
}

TEST_CASE("band: crops may have taken more or less, and nothing falls below nothing") {
  check_span(last(account_of({posting(0, Cause::Uptake, -20)})), 0, 0, 4);
}
