#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <tuple>

#include "aftercrop/load/load.h"
#include "load/plan_rows.h"
#include "load/rotation.h"

namespace aftercrop::load {
namespace {

using diagnostic::Diagnostics;
using garden::Plan;
using garden::Planting;

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

/// Rows that say again what the garden keeps are the garden's.
void drop_known(const std::vector<Planting>& known, std::vector<Planting>& rows) {
  std::vector<Planting> kept;
  std::size_t at = 0;
  for (Planting& row : rows) {
    while (at < known.size() &&
           std::tie(known[at].bed, known[at].from) < std::tie(row.bed, row.from)) {
      ++at;
    }
    bool twice = !kept.empty() && same_stand(kept.back(), row);
    for (std::size_t i = at;
         i < known.size() && known[i].bed == row.bed && known[i].from == row.from; ++i) {
      twice = twice || same_stand(known[i], row);
    }
    if (!twice) kept.push_back(std::move(row));
  }
  rows = std::move(kept);
}

}  // namespace

std::unique_ptr<Node> read_file(const std::string& path, const ReadText& read,
                                const diagnostic::Source& asked_for, Diagnostics& out) {
  TextOrReason got = read(path);
  diagnostic::SourceFile file{path, got.text.value_or("")};
  if (file.text.starts_with(kByteOrderMark)) file.text.erase(0, kByteOrderMark.size());
  const auto shared = std::make_shared<const diagnostic::SourceFile>(std::move(file));
  if (got.text) return parse_yaml(shared, out);
  const diagnostic::Source source =
      asked_for.known() ? asked_for : diagnostic::Source{shared, 0, 0, 1};
  out.error("file-unreadable", fmt::format("{} cannot be read: {}", path, got.reason), source,
            "check the name and the folder");
  return nullptr;
}

std::optional<Plan> read_plan(const Node& root, const RecordContext& context, Diagnostics& out) {
  const int errors = out.count(diagnostic::Severity::Error);
  const Fields fields(root, "a plan", {"plan", "made_by", "site", "plantings", "rotation"}, out);
  if (!fields.is_table()) return {};
  Plan plan;
  if (const Node* name = fields.get("plan")) {
    plan.name = read_text(*name, "the name of a plan", out).value_or("");
  }
  if (const Node* made_by = fields.get("made_by")) {
    plan.made_by = read_text(*made_by, "`made_by`", out).value_or("");
  }
  const Node* rotation = fields.get("rotation");
  const Node* plantings =
      rotation != nullptr ? fields.get("plantings") : fields.need("plantings", out);
  if (plantings != nullptr) {
    for (const Node* item : read_list(*plantings, "plantings", out)) {
      const auto stand = read_stand(*item, *context.lookup, out);
      if (!stand) continue;
      for (Planting& row : plantings_of(*stand, context.fill)) {
        plan.plantings.push_back(std::move(row));
      }
    }
  }
  if (rotation != nullptr) {
    for (Planting& row : read_rotation(*rotation, context, out)) {
      plan.plantings.push_back(std::move(row));
    }
  }
  sort_plantings(plan.plantings);
  if (out.count(diagnostic::Severity::Error) > errors) return {};
  return plan;
}

std::optional<Plan> load_plan(const std::string& path, const LoadedGarden& loaded,
                              const ReadText& read, Diagnostics& out) {
  Diagnostics found;
  const auto root = read_file(path, read, {}, found);
  std::optional<Plan> plan;
  if (root) {
    Lookup lookup(loaded.catalogue);
    lookup.add_beds(loaded.garden.beds);
    Assumed assumed;
    StandYears years(loaded.garden.site.normals, loaded.catalogue.coefficients.site);
    const RecordContext context{{&loaded.catalogue, &loaded.garden, &years, &assumed},
                                &lookup,
                                &read,
                                std::filesystem::path(path).parent_path().string()};
    plan = read_plan(*root, context, found);
    if (plan) drop_known(loaded.garden.history, plan->plantings);
    assumed.tell(root->source, found);
  }
  found.sort();
  out.append(found);
  return plan;
}

}  // namespace aftercrop::load
