#include "load/beds.h"

#include <fmt/format.h>

#include <map>

#include "load/bed_row.h"
#include "load/fields.h"

namespace aftercrop::load {
namespace {

using diagnostic::Diagnostics;
using diagnostic::Source;
using garden::Bed;

constexpr std::size_t kLongestName = 60;

/// Gathers accounts and sees that no name comes twice.
class Accounts {
 public:
  void add(const BedRow& row, Diagnostics& out) {
    for (const std::string& name : row.names) add_bed(row, name, out);
  }
  [[nodiscard]] std::vector<Bed> take() { return std::move(beds_); }

 private:
  void add_bed(const BedRow& row, const std::string& name, Diagnostics& out) {
    if (!check_name(name, row.bed.source, out)) return;
    if (beds_.size() + static_cast<std::size_t>(row.sections) > kMostAccounts) {
      if (!full_) report_too_many_beds(row.bed.source, out);
      full_ = true;
      return;
    }
    for (int i = 1; i <= row.sections; ++i) {
      Bed bed = row.bed;
      bed.whole = name;
      bed.name = row.sections == 1 ? name : fmt::format("{}.{}", name, i);
      bed.section = row.sections == 1 ? 0 : i;
      bed.sections = row.sections;
      bed.length = row.bed.length / row.sections;
      bed.area = row.bed.area / row.sections;
      beds_.push_back(std::move(bed));
    }
  }

  bool check_name(const std::string& name, const Source& source, Diagnostics& out) {
    if (name == "all" || name.size() > kLongestName || name.find('.') != std::string::npos) {
      out.error("bed-name", fmt::format("\"{}\" cannot be the name of a bed", name), source,
                "a name has up to 60 letters and no full stop (N1.2 is section 2 of N1); `all` "
                "stands for all beds");
      return false;
    }
    const auto [earlier, fresh] = names_.emplace(name, source);
    if (fresh) return true;
    out.error("bed-named-twice", fmt::format("the bed \"{}\" is named twice", name), source,
              "give each bed a name of its own")
        .related.push_back({"first here", earlier->second});
    return false;
  }

  std::vector<Bed> beds_;
  std::map<std::string, Source> names_;
  bool full_ = false;
};

void check_neighbours(const std::vector<Bed>& beds, Diagnostics& out) {
  std::map<std::string, bool> known;
  for (const Bed& bed : beds) {
    known[bed.name] = true;
    known[bed.whole] = true;
  }
  const Source* told = nullptr;
  for (const Bed& bed : beds) {
    for (const std::string& other : bed.beside) {
      const bool same_row = told != nullptr && told->line == bed.source.line;
      if (known.contains(other) || same_row) continue;
      out.error("unknown-bed",
                fmt::format("{} lies beside \"{}\", which is not in this garden", bed.whole, other),
                bed.source, "name a bed of this file");
      told = &bed.source;
    }
  }
}

}  // namespace

void report_too_many_beds(const Source& source, Diagnostics& out) {
  out.error("too-many-beds", fmt::format("more than {} beds and sections", kMostAccounts), source,
            "split the file into two");
}

std::vector<Bed> read_garden_beds(const Node& node, const BedContext& context, Diagnostics& out) {
  Accounts accounts;
  for (const Node* item : list_of(node)) {
    const auto row = item->is_scalar() ? read_short_beds(*item, context, out)
                                       : read_bed_row(*item, context, out);
    if (row) accounts.add(*row, out);
  }
  std::vector<Bed> beds = accounts.take();
  check_neighbours(beds, out);
  if (node.is_sequence() && node.items.empty()) {
    out.error("no-beds", "the garden has no beds", node.source, "write `beds: 6 of 8 ft x 4 ft`");
  }
  return beds;
}

}  // namespace aftercrop::load
