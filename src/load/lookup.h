#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/garden/bed.h"
#include "load/fields.h"
#include "load/spelling.h"

namespace aftercrop::load {

/// "A..F" or "N1..N4" written out; a name without dots alone. Empty where the two ends do not make
/// a range, or make one of more than 2,000.
[[nodiscard]] std::vector<std::string> expand_range(std::string_view text);

/// The place of a row by id, name or other name, as people write them.
template <class Row>
[[nodiscard]] std::optional<std::size_t> place_of_row(const std::vector<Row>& rows,
                                                      const std::string& text) {
  const std::string wanted = canonical_name(text);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].id == text || canonical_name(rows[i].id) == wanted) return i;
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (canonical_name(rows[i].name) == wanted) return i;
    if constexpr (requires { rows[i].also; }) {
      for (const std::string& other : rows[i].also) {
        if (canonical_name(other) == wanted) return i;
      }
    }
  }
  return {};
}

template <class Row>
[[nodiscard]] std::vector<std::string> ids_of(const std::vector<Row>& rows) {
  std::vector<std::string> ids;
  for (const Row& row : rows) ids.push_back(row.id);
  return ids;
}

/// The same; reports `id` with "did you mean" where there is none.
template <class Row>
[[nodiscard]] std::optional<std::size_t> find_row(const std::vector<Row>& rows, const Node& node,
                                                  std::string_view what, const char* id,
                                                  diagnostic::Diagnostics& out) {
  const auto text = read_text(node, what, out);
  if (!text) return {};
  const auto place = place_of_row(rows, *text);
  if (!place) report_unknown(id, what, node, ids_of(rows), out);
  return place;
}

/// Names of one garden's files, each looked up once: so a note about a name is said once.
class Lookup {
 public:
  explicit Lookup(const catalogue::Catalogue& catalogue) : catalogue_(&catalogue) {}

  [[nodiscard]] const catalogue::Catalogue& catalogue() const { return *catalogue_; }

  /// Makes the names of the accounts and of the whole beds known.
  void add_beds(const std::vector<garden::Bed>& beds);
  [[nodiscard]] bool has_bed(const std::string& name) const { return beds_.contains(name); }

  /// Error: those of `find_crop`; after a thousand names that are not known the rest is passed
  /// over.
  [[nodiscard]] std::optional<catalogue::CropId> crop(const Node& node,
                                                      diagnostic::Diagnostics& out);
  /// The accounts of one name, a range, a list or `all`. Error: `unknown-bed`.
  [[nodiscard]] std::vector<garden::BedId> beds(const Node& node,
                                                diagnostic::Diagnostics& out) const;
  /// The accounts of one name; empty = unknown.
  [[nodiscard]] std::vector<garden::BedId> bed(const std::string& name) const;
  [[nodiscard]] std::optional<catalogue::PathogenId> pathogen(const Node& node,
                                                              diagnostic::Diagnostics& out) const;
  [[nodiscard]] std::optional<catalogue::AmendmentId> amendment(const Node& node,
                                                                diagnostic::Diagnostics& out) const;

 private:
  void report_bed(const std::string& name, const Node& node, diagnostic::Diagnostics& out) const;

  const catalogue::Catalogue* catalogue_;
  std::map<std::string, std::vector<garden::BedId>> beds_;
  std::vector<garden::BedId> all_;
  std::vector<std::string> bed_names_;
  std::vector<std::string> whole_names_;  ///< in the order of the garden
  std::map<std::string, std::optional<catalogue::CropId>> crops_;
  int unknown_crops_ = 0;
};

}  // namespace aftercrop::load
