#include <array>
#include <cmath>

#include "aftercrop/climate/site_climate.h"
#include "aftercrop/rules/rule.h"
#include "published/disease_tables.h"
#include "support/lived_bed.h"
#include "support/verdict.h"

namespace aftercrop::published {
namespace {

using calendar::Week;
using diagnostic::Severity;
using support::judged;
using support::Seen;
using support::Verdict;
using support::years;

/// Weeks that small seed has to wait after rye at heading, 4 t/ha dug in.
double wait_after_rye(const char* sown) {
  const garden::Garden garden = support::one_bed("utrecht");
  const ledger::BedLedger ledger = support::ledger_of(garden, "utrecht");
  ledger::BedState state = ledger.opening();
  ledger::PastStand rye;
  rye.crop = crop_id("rye");
  rye.weeks = {state.week - calendar::Weeks(20), state.week};
  rye.ending = catalogue::Ending::Incorporated;
  rye.flower = 1.1;
  rye.dry_t_ha = 4.0;
  state.recent[0] = rye;
  ledger::Stand stand;
  stand.spec.crop = crop_id(sown);
  stand.from_seed = true;
  rules::Breaches breaches;
  rules::find_rule(garden::RuleId::PlantBack)->judge({ledger, state, stand, false}, breaches);
  return breaches.empty() ? 0.0 : breaches.front().limit;
}

calendar::WeekSpan stood(const char* from, const char* past) {
  return {calendar::week_of(*calendar::Date::parse(from)),
          calendar::week_of(*calendar::Date::parse(past))};
}

double between(const calendar::WeekSpan& first, const calendar::WeekSpan& next) {
  const auto& site = support::climate_of("minneapolis");
  return site.season_of(next) - site.season_of(first) - 1;
}

/// No warning of family, host, disease or residue.
bool silent(const Verdict& verdict) { return verdict.successions(Severity::Warning).empty(); }

void check_bad_successions(support::CheckTable& table) {
  const char* connecticut = "University of Connecticut IPM, rotation table";
  table.about("D28", 'C', "Ohio State University fact sheet, as quoted");
  const std::vector<Seen> wilted = {{"verticillium-wilt", "2026-08-15"}};
  table.holds("strawberry two years after tomato is warned of",
              years(2026, {"tomato", "-", "strawberry"}).warns("host-return"));
  table.holds("and refused where wilt was seen",
              years(2026, {"tomato", "-", "strawberry"}, wilted).refuses("prone-on-infected"));
  table.about("D29", 'C', connecticut);
  table.holds("aubergine two years after tomato is refused",
              years(2026, {"tomato", "-", "aubergine"}).refuses("family-break"));
  table.about("D30", 'C', connecticut);
  const std::vector<Seen> clubbed = {{"clubroot", "2025-06-15"}};
  const Verdict cabbage = years(2025, {"radish", "-", "-", "-", "-", "cabbage-late"}, clubbed);
  table.holds("cabbage four seasons after clubbed radish is advised against",
              cabbage.count("prone-on-infected", Severity::Note) > 0 &&
                  cabbage.count("host-return", Severity::Note) > 0);
  table.about("D31", 'C', "Pacific Northwest Plant Disease Handbook, spinach");
  table.holds("spinach two years running is refused",
              years(2026, {"spinach", "spinach"}).refuses("family-break"));
  table.about("D32", 'C', "Pacific Northwest Plant Disease Handbook, scab");
  table.holds(
      "beet after scabby potato is warned of",
      years(2026, {"potato", "beet"}, {{"common-scab", "2026-08-15"}}).warns("host-return"));
  table.about("D33", 'C', connecticut);
  table.holds("asparagus after asparagus is refused",
              judged("plantings:\n"
                     "  - {bed: A, crop: asparagus, from: 2015-04-20, to: 2026-07-06}\n"
                     "  - {bed: A, crop: asparagus, from: 2028-04-24, to: 2036-07-07}\n")
                  .refuses("family-break"));
  table.about("D34", 'C', connecticut);
  table.holds("bean after mouldy lettuce is warned of",
              years(2026, {"lettuce-head", "bush-bean"}, {{"white-mould", "2026-07-15"}})
                  .warns("host-return"));
}

void check_waits(support::CheckTable& table) {
  const char* connecticut = "University of Connecticut IPM, rotation table";
  const std::string sorghum =
      "plantings:\n  - {bed: A, crop: sorghum-sudan, from: 2026-06-01, to: 2026-07-27, ending: ";
  const char* summers = "Summers et al. 2009, Calif. Agric. 63:35";
  table.about("D35", 'C', summers);
  table.holds("transplants three weeks into killed sorghum-sudangrass are warned of",
              judged(sorghum + "cut-roots-left}\n"
                               "  - {bed: A, crop: broccoli, from: 2026-08-17, to: 2026-10-26}\n")
                  .warns("plant-back"));
  table.about("D36", 'C', summers);
  table.holds(
      "nine weeks after it was dug in is silent",
      silent(judged(sorghum + "incorporated}\n"
                              "  - {bed: A, crop: tomato, from: 2026-09-28, to: 2026-11-30}\n")));
  table.about("D37", 'C', connecticut);
  table.holds("pumpkin the year after melon is refused",
              years(2026, {"melon", "pumpkin"}).refuses("family-break"));
  table.about("D38", 'C', "Pacific Northwest Handbook and UC IPM, pink root");
  table.holds("onion two years after onion is refused",
              years(2026, {"onion-bulb", "-", "onion-bulb"}).refuses("family-break"));
  table.about("D39", 'C', "UC IPM, white rot: more than 20 years");
  const auto& white_rot = pathogen("white-rot-onion");
  table.within("20 sclerotia/kg after ten years", rest(white_rot, 10)(20 / white_rot.threshold),
               14.1, 0.01);
}

void check_good_successions(support::CheckTable& table) {
  const char* coleman = "Coleman, The New Organic Grower";
  table.about("D40", 'C', coleman);
  table.holds("potato after sweet corn is silent", silent(years(2027, {"sweet-corn", "potato"})));
  table.about("D41", 'C', coleman);
  table.holds("sweet corn after cabbage", silent(years(2027, {"cabbage-late", "sweet-corn"})));
  table.about("D42", 'C', coleman);
  table.holds("carrot after squash", silent(years(2027, {"squash-winter", "carrot"})));
  table.holds("beet after squash", silent(years(2027, {"squash-winter", "beet"})));
  table.about("D43", 'C', "Subbarao et al. 2007, Plant Dis. 91:964");
  const auto& wilt = pathogen("verticillium-wilt");
  const auto once = disease::kill(effect(wilt, "broccoli").efficacy.typical, 1.0);
  const auto lettuce = disease::then(season(wilt, "lettuce-head"), rest(wilt, 0.3));
  table.within("two broccoli crops leave of the load", disease::then(once, once).a, 0.0625, 0.01);
  table.holds("less than two of lettuce",
              disease::then(once, once)(6) < disease::then(lettuce, lettuce)(6));
  table.about("D44", 'C', "Pacific Northwest Handbook, bean root rot");
  table.holds("bean after three years of grain is silent",
              silent(years(2027, {"bush-bean", "oat", "oat", "oat", "bush-bean"})));
  table.about("D45", 'C', "441 onion fields, Marvdasht: 27 % pink root after alfalfa");
  table.holds("onion after oats is silent", silent(years(2027, {"oat", "onion-bulb"})));
  table.holds("after lucerne at most a note", silent(years(2027, {"lucerne", "onion-bulb"})));
}

}  // namespace

void check_conditions(support::CheckTable& table) {
  table.about("D25", 'F', "Liebman and Sundberg 2006: seed mass; heading rye dug in");
  table.equal("lettuce waits, weeks", wait_after_rye("lettuce-leaf"), 4);
  table.equal("onion", wait_after_rye("onion-bulb"), 3);
  table.equal("spinach", wait_after_rye("spinach"), 2);
  table.equal("cucumber", wait_after_rye("cucumber"), 1);
  table.equal("sweet corn", wait_after_rye("sweet-corn"), 0);
  table.about("D26", 'F', "season-years from coldest week to coldest week");
  const auto tomato = stood("2026-05-20", "2026-10-02");
  table.equal("tomato, 2028", between(tomato, stood("2028-05-15", "2028-09-30")), 1);
  table.equal("2029", between(tomato, stood("2029-05-14", "2029-09-30")), 2);
  table.equal("2030", between(tomato, stood("2030-05-13", "2030-09-30")), 3);
  table.equal("garlic over winter",
              between(stood("2025-10-15", "2026-07-15"), stood("2028-10-15", "2029-07-15")), 2);
  table.equal("spring brassicas",
              between(stood("2026-04-20", "2026-07-20"), stood("2028-03-20", "2028-06-20")), 1);
  table.equal("potato and tomato",
              between(stood("2027-04-20", "2027-08-16"), stood("2029-05-14", "2029-10-01")), 1);
  table.equal("leek and onion",
              between(stood("2026-06-10", "2027-03-01"), stood("2029-04-01", "2029-08-20")), 2);
  table.about("D27", 'F', "Cornell, Biofumigation for managing Phytophthora blight");
  disease::Fumigation how;
  how.flower = 1.1;
  how.soil_c = 12;
  const auto quality = disease::fumigation_quality(disease_rows().crop(crop_id("mustard-brown")),
                                                   how, disease_rows().coefficients.disease);
  table.near("mustard an hour late, not sealed", quality.q, 0.24, 1e-9)
      .misses("0.48: a plan does not know of the hour of delay; 0.6 stands for all that hands do");
}

void check_successions(support::CheckTable& table) {
  check_bad_successions(table);
  check_waits(table);
  check_good_successions(table);
}

void check_rotations(support::CheckTable& table) {
  table.about("D46", 'C', "Coleman, The New Organic Grower, eight years");
  table.holds("passes without a warning",
              silent(support::cycle("potato, squash-winter, carrot + beet, bush-bean, tomato, "
                                    "pea-shell, cabbage-late, sweet-corn",
                                    "A..H")));
  table.about("D47", 'C', "Royal Horticultural Society, three beds");
  const Verdict three =
      support::cycle("potato, pea-shell + onion-bulb + carrot, cabbage-late", "A..C");
  table.holds("passes the least breaks", three.successions(Severity::Error).empty());
  table.holds("and is warned of the longer ones", three.warns("family-break"));
  table.about("D48", 'C', "Harrod Horticultural, four beds");
  table.holds("passes", silent(support::cycle(
                            "pea-shell, cabbage-late, potato, onion-bulb + carrot", "A..D")));
  table.about("D49", 'C', "Muramoto et al. 2014: yield as after seven years off");
  const Verdict berries = judged(
      "plantings:\n"
      "  - {bed: A, crop: strawberry, from: 2025-04-28, to: 2027-08-02}\n"
      "  - {bed: A, crop: broccoli, from: 2028-05-01, to: 2028-07-31}\n"
      "  - {bed: A, crop: strawberry, from: 2029-04-30, to: 2031-08-04}\n");
  table.holds("strawberry, broccoli, strawberry passes", !berries.refuses("family-break"));
  table.holds("with a warning", berries.warns("family-break"));
  table.about("D50", 'C', "MacNab and Zitter, Cornell");
  table.equal(
      "tomato every year, errors",
      years(2026, {"tomato", "tomato", "tomato", "tomato"}).count("family-break", Severity::Error),
      3);
  const auto& k = disease_rows().coefficients.disease;
  const auto climb = [&](const char* id, const char* host, int off, int rounds) {
    const auto& row = pathogen(id);
    const auto round = disease::then(season(row, host), rest(row, off));
    double load = k.background_load;
    for (int i = 0; i < rounds; ++i) load = round(load);
    return load;
  };
  table.about("D51", 'C', "Jonsson et al. 2016: high after 9 to 12 rounds");
  table.inside("clubroot after nine rapeseeds, one in four", climb("clubroot", "rape-cover", 3, 9),
               k.refuse_at, 16);
  table.about("D52", 'C', "Trudgill et al.");
  table.inside("potato cysts after five potatoes, one in six",
               climb("potato-cyst-nematode", "potato", 5, 5), k.refuse_at, 32);
  table.about("D53", 'C', "Persson et al. 1999, Plant Dis. 83:1108: failed in year 2");
  const Verdict pea = years(2026, {"pea-shell", "pea-shell"}, {{"aphanomyces-pea", "2026-06-15"}});
  table.holds("pea every year fails in its second",
              pea.refuses("family-break") && pea.refuses("prone-on-infected"));
  table.about("D54", 'C', "same-season successions of salads are usual (RHS)");
  table.holds(
      "three lettuces in a season pass",
      silent(judged("plantings:\n"
                    "  - {bed: A, crop: lettuce-leaf, from: 2027-04-26, to: 2027-06-14}\n"
                    "  - {bed: A, crop: lettuce-leaf, from: 2027-06-14, to: 2027-08-02}\n"
                    "  - {bed: A, crop: lettuce-leaf, from: 2027-08-02, to: 2027-09-20}\n")));
  table.about("D55", 'P', "Murakami et al. 2000, Soil Sci. Plant Nutr.");
  const auto& clubroot = pathogen("clubroot");
  table.near("clubbed roots dug in", season(clubroot, "cabbage-napa")(0.5), 1.829, 0.0005);
  table.near("carried off",
             season(clubroot, "cabbage-napa", catalogue::Ending::HarvestedPulled)(0.5), 0.572,
             0.0005);
}

}  // namespace aftercrop::published
