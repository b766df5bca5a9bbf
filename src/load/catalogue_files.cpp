#include "load/catalogue_files.h"

#include <array>
#include <cassert>

#include "aftercrop/load/load.h"
#include "load/catalogue_tables.h"
#include "load/embedded_files.h"
#include "load/packed_tree.h"

namespace aftercrop::load {
namespace {

using catalogue::Catalogue;
using diagnostic::Diagnostics;

const std::vector<std::string_view> kFileKeys = {
    "family",    "name",      "trade_name", "also",         "breaks", "cross_breaks", "crops",
    "citations", "pathogens", "climates",   "host_returns", "soils",  "residues",     "amendments",
    "partners",  "cautions",  "ledger",     "mixtures",     "site"};

struct Table {
  std::string_view key;
  void (*read)(const Node&, CatalogueBuild&);
};
/// What crops name comes before them, what names crops after.
constexpr std::array<Table, 2> kBefore = {
    {{"cautions", read_cautions}, {"residues", read_residues}}};
constexpr std::array<Table, 9> kAfter = {{{"mixtures", read_mixtures},
                                          {"pathogens", read_pathogens},
                                          {"host_returns", read_host_returns},
                                          {"partners", read_partners},
                                          {"climates", read_climates},
                                          {"soils", read_soils},
                                          {"amendments", read_amendments},
                                          {"ledger", read_ledger},
                                          {"site", read_site_coefficients}}};

template <std::size_t N>
void read_tables(const std::array<Table, N>& tables, const std::vector<RowFields>& files,
                 CatalogueBuild& build) {
  for (const Table& table : tables) {
    for (const RowFields& file : files) {
      if (const Node* node = file.get(table.key)) table.read(*node, build);
    }
  }
}

catalogue::FamilyId family_of(const RowFields& file, const Catalogue& rows) {
  const Node* node = file.get("family");
  if (node == nullptr) return {};
  for (std::size_t i = 0; i < rows.families.size(); ++i) {
    if (rows.families[i].id == node->text) return catalogue::FamilyId(i);
  }
  return {};
}

/// Turns of reading: files in the order in which they name each other. They are read one by one, so
/// that each tree lies in the memory of the one before: half of the start-up time was new pages.
constexpr int kLastOfCrops = 3;
constexpr int kLastTurn = 5;

int turn_of(std::string_view name) {
  if (name == "crops/sources.yaml") return 0;
  if (name == "crops/cautions.yaml" || name == "crops/residues.yaml") return 1;
  if (name == "crops/mixtures.yaml") return kLastOfCrops;
  for (const std::string_view place :
       {"crops/amendments.yaml", "crops/climates.yaml", "crops/ledger.yaml", "crops/site.yaml",
        "crops/soils.yaml"}) {
    if (name == place) return 4;
  }
  if (name == "crops/partners.yaml" || name == "crops/pathogens.yaml") return kLastTurn;
  return 2;
}

Catalogue read_embedded(int last_turn) {
  Catalogue rows;
  Diagnostics out;
  for (int turn = 0; turn <= last_turn; ++turn) {
    for (const EmbeddedFile& file : embedded_files()) {
      if (turn_of(file.name) != turn) continue;
      auto source = std::make_shared<diagnostic::SourceFile>();
      source->name = file.name;
      const Node tree = unpack(file.bytes, source);
      read_catalogue({&tree}, false, rows, out);
    }
  }
  assert(!out.has_errors() && "the files of crops/ are checked by the tests");
  return rows;
}

}  // namespace

void read_catalogue(const std::vector<const Node*>& trees, bool over_base, Catalogue& rows,
                    Diagnostics& out) {
  CatalogueBuild build{rows, out, over_base, {}, {}};
  for (std::size_t i = 0; i < rows.crops.size(); ++i)
    build.crop_places.emplace(rows.crops[i].id, i);
  std::vector<RowFields> files;
  files.reserve(trees.size());
  for (const Node* tree : trees) files.emplace_back(*tree, "a catalogue file", kFileKeys, out);
  for (const RowFields& file : files) {
    if (const Node* node = file.get("citations")) read_bibliography(*node, rows.bibliography, out);
  }
  for (const RowFields& file : files) read_family(file, build);
  read_tables(kBefore, files, build);
  for (const RowFields& file : files) {
    if (const Node* node = file.get("crops")) read_crops(*node, family_of(file, rows), build);
  }
  read_tables(kAfter, files, build);
  if (!rows.pathogens.empty()) join_kin(rows);
}

const Catalogue& embedded_catalogue() {
  // Never taken down: the program's end need not sweep it together.
  static const Catalogue& rows = *new Catalogue(read_embedded(kLastTurn));
  return rows;
}

const Catalogue& embedded_crops() {
  static const Catalogue& rows = *new Catalogue(read_embedded(kLastOfCrops));
  return rows;
}

std::optional<Catalogue> load_catalogue(const Catalogue& base, const std::string& path,
                                        const ReadText& read, Diagnostics& out) {
  const TextOrReason found = read(path);
  if (!found.text) {
    out.error("file-unreadable", path + " cannot be read: " + found.reason, {},
              "check the name of the file of crops");
    return {};
  }
  auto file = std::make_shared<diagnostic::SourceFile>();
  file->name = path;
  file->text = *found.text;
  Diagnostics mistakes;
  const auto tree = parse_yaml(file, mistakes);
  std::optional<Catalogue> rows;
  if (tree != nullptr) {
    rows = base;
    read_catalogue({tree.get()}, true, *rows, mistakes);
  }
  out.append(mistakes);
  if (mistakes.has_errors()) return {};
  return rows;
}

}  // namespace aftercrop::load
