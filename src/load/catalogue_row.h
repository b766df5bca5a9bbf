#pragma once

#include <set>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "aftercrop/catalogue/catalogue.h"
#include "aftercrop/diagnostic/diagnostic.h"
#include "load/citations.h"
#include "load/fields.h"

namespace aftercrop::load {

/// What the readers of catalogue files share while they fill one catalogue.
struct CatalogueBuild {
  catalogue::Catalogue& rows;
  diagnostic::Diagnostics& out;
  bool over_base = false;  ///< a user's file: a known id changes single keys of its row
  std::unordered_map<std::string, std::size_t> crop_places;
  std::set<std::string> seen;  ///< "table/id" of the rows read so far

  /// Crops of a list of ids; the id of a family stands for all its crops and covers.
  [[nodiscard]] std::vector<catalogue::CropId> crops(const Node& node);
  [[nodiscard]] catalogue::PathogenId pathogen(const Node& node);
};

/// One table of a row. Every reader leaves its target as it is where the key is absent, so that
/// one reader serves new rows and rows that change single keys.
class RowFields {
 public:
  RowFields(const Node& node, std::string_view what, std::vector<std::string_view> keys,
            diagnostic::Diagnostics& out)
      : fields_(node, what, std::move(keys), out), out_(&out) {}

  /// Reports `missing-key` for each of `keys` that is absent: for new rows.
  void need(const std::vector<std::string_view>& keys) const;

  [[nodiscard]] const Node* get(std::string_view key) const { return fields_.get(key); }
  [[nodiscard]] const diagnostic::Source& source() const { return fields_.source(); }
  void text(std::string_view key, std::string& into) const;
  void texts(std::string_view key, std::vector<std::string>& into) const;
  void number(std::string_view key, double& into, Limits limits) const;
  void whole(std::string_view key, int& into, Limits limits) const;
  void yes_no(std::string_view key, bool& into) const;
  /// Low, typical and high in this order; error `out-of-order`.
  void range(std::string_view key, catalogue::Range& into, Limits limits) const;
  /// Two numbers, the least first.
  void pair(std::string_view key, double& least, double& most, Limits limits) const;
  /// Exactly as many numbers as `into` holds.
  void numbers(std::string_view key, std::span<double> into, Limits limits) const;

  template <class Value>
  void choice(std::string_view key, Value& into,
              const std::vector<std::pair<std::string_view, Value>>& choices) const {
    if (const Node* node = get(key)) {
      if (const auto value = read_choice<Value>(*node, key, choices, *out_)) into = *value;
    }
  }

 private:
  Fields fields_;
  diagnostic::Diagnostics* out_;
};

/// Reports `out-of-order` where `least` is above `most`.
void check_order(double least, double most, std::string_view what, const diagnostic::Source& source,
                 diagnostic::Diagnostics& out);

/// Reads `source:` of a row; a new row without one gets the file as its source.
void read_row_source(const RowFields& fields, CatalogueBuild& build,
                     std::vector<catalogue::Citation>& into);

/// The id of a row, checked: lower case, digits, hyphens; not twice in these files. Empty text =
/// reported.
[[nodiscard]] std::string read_row_id(const Node& row, std::string_view table,
                                      CatalogueBuild& build);

/// The same for an id that was put together: `source` is where it is named.
[[nodiscard]] bool check_row_id(const std::string& id, std::string_view table,
                                const diagnostic::Source& source, CatalogueBuild& build);

/// Where a row's values go: the row of that id, or a new one at the end.
template <class Row>
struct OpenRow {
  std::size_t place;
  bool fresh;
};
template <class Row>
[[nodiscard]] OpenRow<Row> open_row(std::vector<Row>& rows, const std::string& id) {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].id == id) return {i, false};
  }
  rows.emplace_back();
  rows.back().id = id;
  return {rows.size() - 1, true};
}

}  // namespace aftercrop::load
