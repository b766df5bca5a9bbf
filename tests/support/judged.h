#pragma once

#include <doctest/doctest.h>

#include <fstream>
#include <memory>
#include <sstream>
#include <string>

#include "aftercrop/check/check.h"
#include "aftercrop/diagnostic/render.h"
#include "aftercrop/load/load.h"

// A garden and a plan that live in a test, read with the embedded rows and judged.
namespace aftercrop::support {

inline std::string file_text(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

struct Ground {
  std::unique_ptr<load::LoadedGarden> loaded;
  std::unique_ptr<ledger::SiteClimates> climates;
  garden::Plan plan;

  [[nodiscard]] const garden::Garden& garden() const { return loaded->garden; }
  [[nodiscard]] const catalogue::Catalogue& rows() const { return loaded->catalogue; }
  [[nodiscard]] garden::BedId bed(const std::string& name) const {
    return garden().find(name).front();
  }
  [[nodiscard]] catalogue::CropId crop(const std::string& id) const {
    return *rows().find_crop(id);
  }
  [[nodiscard]] check::Judgement judge(const garden::Plan& other) const {
    check::Ask ask;
    ask.accounts = false;
    return check::judge(garden(), rows(), *climates, other, ask);
  }
  [[nodiscard]] check::Judgement judge() const { return judge(plan); }
};

inline std::string told(const diagnostic::Diagnostics& said) {
  std::string text;
  for (const auto& one : said.all()) text += diagnostic::render_concise(one) + "\n";
  return text;
}

/// `plan` may be empty.
inline Ground ground_of(const std::string& garden, const std::string& plan) {
  diagnostic::Diagnostics said;
  const load::ReadText read = [&](const std::string& path) -> load::TextOrReason {
    if (path == "garden.yaml") return {garden, {}};
    return {plan, {}};
  };
  auto loaded = load::load_garden("garden.yaml", load::embedded_catalogue(), read, said);
  REQUIRE_MESSAGE(loaded, told(said));
  Ground ground;
  ground.loaded = std::make_unique<load::LoadedGarden>(std::move(*loaded));
  ground.climates = std::make_unique<ledger::SiteClimates>(ground.garden(), ground.rows());
  if (plan.empty()) return ground;
  auto read_plan = load::load_plan("plan.yaml", *ground.loaded, read, said);
  REQUIRE_MESSAGE(read_plan, told(said));
  ground.plan = std::move(*read_plan);
  return ground;
}

/// A random stream that is the same on every machine.
class Stream {
 public:
  explicit Stream(unsigned seed) : state_(seed) {}
  std::size_t below(std::size_t count) {
    state_ = state_ * 1664525U + 1013904223U;
    return static_cast<std::size_t>(state_ >> 8U) % count;
  }

 private:
  unsigned state_;
};

}  // namespace aftercrop::support
