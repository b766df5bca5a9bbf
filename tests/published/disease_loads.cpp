#include <cmath>

#include "published/disease_tables.h"
#include "support/embedded_garden.h"

namespace aftercrop::published {
namespace {

/// Doublings of a low load over one host season and `years` without.
double cycle_doublings(const char* id, const char* host, double years) {
  const catalogue::Pathogen& row = pathogen(id);
  return std::log2(disease::then(season(row, host), rest(row, years)).a);
}

void check_nematodes(support::CheckTable& table) {
  table.about("D4", 'P', "30 % a year (from memory); AHDB 2020: one year in eight is the least");
  const catalogue::Pathogen& row = pathogen("potato-cyst-nematode");
  double eggs = 100;
  for (int year = 1; year <= 8; ++year) {
    eggs *= 0.7;
    table.within(fmt::format("eggs of 100 after {} years", year), rest(row, year)(100), eggs,
                 0.005);
  }
  table.within("half-life, years", row.half_life_years.typical, 1.9434, 0.005);
  table.within("years to 5 eggs", disease::years_to(100, 5, row.half_life_years.typical), 8.40,
               0.005);
  table.about("D5", 'P', "Scholte and Vos 2000, Ann. appl. Biol. 137:153");
  table.within("left after two years of flax and barley, slowest decline",
               rest(row.half_life_years.high, 2)(1.0), 0.64, 0.01);
  table.about("D20", 'C', "Trudgill et al.: one in 5 or 6 is too often; AHDB 2020: one in eight");
  table.within("potato every 6th year, doublings a cycle",
               cycle_doublings("potato-cyst-nematode", "potato", 5), 1.43, 0.01);
  table.near("every 8th", cycle_doublings("potato-cyst-nematode", "potato", 7), 0.40, 0.01);
  table.near("every 9th", cycle_doublings("potato-cyst-nematode", "potato", 8), -0.12, 0.01);
  table.within("break-even, years off", row.gain * row.half_life_years.typical, 7.77, 0.01);
  table.about("D24", 'P', "AHDB 2020: 75-80 % of the eggs gone after sticky nightshade");
  const double after = disease::kill(0.75, 1.0)(40);
  table.within("40 eggs at once", after, 10, 0.01);
  table.within("years more to 5 eggs", disease::years_to(after, 5, row.half_life_years.typical),
               1.94, 0.01);
  table.within("years without it", disease::years_to(40, 5, row.half_life_years.typical), 5.83,
               0.01);
}

void check_verticillium(support::CheckTable& table) {
  const auto& row = pathogen("verticillium-wilt");
  table.about("D6", 'P', "Negev soils (Ben-Yephet and Szmulewich 1985): 4 % left after 7 years");
  table.within("shortest half-life, years to 4 %",
               disease::years_to(1.0, 0.04, row.half_life_years.low), 7.0, 0.01);
  table.about("D7", 'P', "UC Santa Cruz: 2 a gram are enough in strawberry");
  table.within("years from 30 to 2 a gram", disease::years_to(30, 2, row.half_life_years.typical),
               7.81, 0.01);
  table.within("at the shortest half-life", disease::years_to(30, 2, row.half_life_years.low), 5.89,
               0.01);
  table.about("D8", 'P', "Xiao et al. 1998, Phytopathology 88:1046");
  const auto once = disease::kill(effect(row, "broccoli").efficacy.typical, 1.0);
  table.within("one crop of broccoli removes", 1 - once.a, 0.755, 0.01);
  table.within("two crops, of 30 a gram", disease::then(once, once)(30), 1.8, 0.01)
      .misses("1.875: the row's efficacy is rounded from 0.755 to 0.75");
}

}  // namespace

void check_decay(support::CheckTable& table) {
  table.about("D1", 'F', "7 days of a half-life of 3.6 years");
  table.equal("factor of one week", disease::decay(1, 3.6).a, 0.996316762354942);
  table.about("D2", 'F', "severe clubroot: refused for 3 half-lives, advised against for 5");
  const auto& clubroot = pathogen("clubroot");
  for (const auto& [years, left] : {std::pair{3.6, 4.0}, {10.8, 1.0}, {18.0, 0.25}}) {
    table.near(fmt::format("after {} years", years), rest(clubroot, years)(8), left, 1e-9);
  }
  table.about("D3", 'P', "Wallenhammar 1996, Plant Pathol. 45:710: undetectable after 17.3 years");
  table.inside("left after 17.3 years", rest(clubroot, 17.3)(1.0), 0.03, 0.045);
  check_nematodes(table);
  check_verticillium(table);
  table.about("D9", 'P', "Pfender and Hagedorn 1983, Phytopathology 73:1109");
  const auto& root_rot = pathogen("aphanomyces-pea");
  table.equal("100 after 4 years", rest(root_rot, 4)(100), 6.25);
  table.equal("after 6 years", rest(root_rot, 6)(100), 1.5625);
  const double half_life = root_rot.half_life_years.typical;
  table.equal("severe, years to the threshold", disease::years_to(8, 1, half_life), 3.0);
  table.equal("and to a quarter", disease::years_to(8, root_rot.advise_at, half_life), 5.0);
  table.about("D10", 'P', "central New York, Plant Dis. 2024: 15 % viable after 769 days");
  table.within("half-life, years", pathogen("white-mould").half_life_years.typical, 0.769, 0.05);
}

void check_maps(support::CheckTable& table) {
  table.about("D11", 'F', "closed form of logistic growth");
  table.equal("0.05 after a season of gain 2", disease::host_weeks(20, 20, 2, 16)(0.05),
              4 * 0.05 / (1 + 3 * 0.05 / 16));
  table.near("the same", disease::host_weeks(20, 20, 2, 16)(0.05), 0.1981424149, 1e-10);
  table.about("D12", 'F', "the ceiling is a fixed point");
  for (const double gain : {1.0, 2.0, 5.0}) {
    table.equal("16 stays", disease::host_weeks(20, 20, gain, 16)(16), 16);
  }
  table.about("D13", 'F', "growth composes");
  const auto one = disease::host_weeks(20, 20, 1, 16);
  table.near("gain 1 twice", one(one(0.3)), 1.1360946746, 1e-10);
  table.near("gain 2 once", disease::host_weeks(20, 20, 2, 16)(0.3), 1.1360946746, 1e-10);
  table.about("D14", 'F', "a path of events is one map");
  const auto half = disease::decay(26, 2);
  const auto path = disease::then(disease::then(half, disease::host_weeks(20, 20, 2, 16)), half);
  table.near("a", path.a, 2.8317838657, 1e-9);
  table.near("b", path.b, 0.1577616093, 1e-9);
  table.near("of 0.05", path(0.05), 0.1404810673, 1e-9);
  table.about("D15", 'C', "MacNab and Zitter, Cornell (2020): defoliation 3, 30, 74, 70 %");
  const auto& blight = pathogen("early-blight");
  const auto year =
      disease::then(season(blight, "tomato"), disease::decay(30, blight.half_life_years.typical));
  double load = disease_rows().coefficients.disease.background_load;
  for (const double at_planting : {0.050, 0.271, 1.314, 4.242}) {
    table.near("load at planting", load, at_planting, 0.0006);
    load = year(load);
  }
  table.about("D16", 'P',
              "Wheeler et al. 1992: 10 % of potatoes lost at 10.49 and, with lesion "
              "nematodes, at 5.48 per cm3");
  const auto& wilt = pathogen("verticillium-wilt");
  const double alone = wilt.host(crop_id("potato"))->tolerance;
  table.within("threshold alone over threshold with nematodes",
               wilt.worse_with.empty() ? 0.0 : wilt.worse_with.front().factor, 10.49 / 5.48, 0.05);
  table.within("load of 10 % loss alone, as our threshold", alone * wilt.threshold, 10.49, 0.05);
  table.about("D17", 'P', "Subbarao et al. 1999, Plant Dis. 83:124: 200 kg on 36 m2");
  const auto loaded = support::embedded_garden(
      "garden: Lot\nsite: {climate: utrecht}\nseasons: 2027\n"
      "beds:\n  - {bed: A, length: 12 m, width: 3 m}\n"
      "amendments:\n  - {bed: A, date: 2027-08-02, material: grass-clippings, amount: 200 kg}\n");
  table.within("kg/m2", loaded.garden.applications.front().kg_per_m2, 5.56, 0.005);
  table.about("D21", 'C', "Jonsson et al. 2016, Eur. J. Plant Pathol. 145:573: one in four climbs");
  table.within("brassicas one in four, doublings a cycle",
               cycle_doublings("clubroot", "rape-cover", 3), 1.17, 0.01);
  table.near("one in eight", cycle_doublings("clubroot", "rape-cover", 7), 0.06, 0.006);
  table.near("one in nine", cycle_doublings("clubroot", "rape-cover", 8), -0.22, 0.01);
  table.about("D22", 'F', "rest before a host and after it");
  const auto year_off = rest(1.0, 1.0);
  const auto host = disease::host_weeks(20, 20, 3, 16);
  table.near("rest, then host", disease::then(year_off, host)(2), 5.5652, 5e-5);
  table.near("host, then rest", disease::then(host, year_off)(2), 4.2667, 5e-5);
}

void check_years_off(support::CheckTable& table) {
  const auto& k = disease_rows().coefficients.disease;
  const auto& clubroot = pathogen("clubroot");
  const double seen = k.sighting_some;
  const double half_life = clubroot.half_life_years.typical;
  table.about("D18", 'F', "University of Connecticut: 7 years lie between refusal and advice");
  table.near("clubroot after 3.33 years", rest(clubroot, 3.33)(seen), 1.053, 0.001);
  table.near("after 4.33 years", rest(clubroot, 4.33)(seen), 0.869, 0.001);
  table.near("after the break of 7 years", rest(clubroot, 7)(seen), 0.520, 0.001);
  table.equal("years of refusal", disease::years_to(seen, k.refuse_at, half_life), 3.6);
  table.equal("years of advice", disease::years_to(seen, clubroot.advise_at, half_life), 10.8);
  table.about("D19", 'C', "Heinrich and Stone, Oregon State University 2013-2015");
  table.near("limed to pH 7.2", seen * disease::ph_factor(clubroot, 7.2), 0.300, 0.0005);
  table.near("limed to pH 6.9", seen * disease::ph_factor(clubroot, 6.9), 1.029, 0.0005);
  table.about("D23", 'C', "4-6 years for leaves (Pacific Northwest), 10-15 for seed (du Toit)");
  const auto& spinach = pathogen("fusarium-wilt-spinach");
  table.near("spinach wilt after 6 years", rest(spinach, 6)(seen), 0.707, 0.0005);
  table.near("after 10", rest(spinach, 10)(seen), 0.354, 0.0005);
  table.near("after 12", rest(spinach, 12)(seen), 0.25, 0.0005);
  table.inside("years of refusal",
               disease::years_to(seen, k.refuse_at, spinach.half_life_years.typical), 3, 4 + 1e-9);
}

}  // namespace aftercrop::published
