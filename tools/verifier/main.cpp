#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cctype>
#include <cerrno>
#include <chrono>
#include <cmath>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>

#include "aftercrop/diagnostic/render.h"
#include "proof.h"

namespace aftercrop::verifier {
namespace {

constexpr int kProved = 0;
constexpr int kNotProved = 1;
constexpr int kUnreadable = 2;

constexpr const char* kFooter =
    "What is proved, with code that shares nothing with the search but the ledgers, the rules and\n"
    "the climate that both stand on:\n"
    "  value    every term of the plan's value, from the postings of its ledgers and from its\n"
    "           stands; each is one that plans are made of here, none overlaps another or breaks\n"
    "           a required rule\n"
    "  classes  each bed is in one class, and beds of a class are alike in all that counts\n"
    "  bounds   no path of a class earns more than its bound at the prices: every path that might\n"
    "           is followed through the true state of its bed, none is left out for room\n"
    "  sum      prices and class bounds add up to the bound\n"
    "It is refused where a number does not follow from the others: terms, total and bound are\n"
    "fixed by the plan and the sums; prices and units are multiples of 1/1024, class bounds and\n"
    "fees of 1/2^30; a class bound that some path exceeds is refuted, one above what prices and "
    "fees\n"
    "alone give is loose. What is not refused: other numbers on these scales that fit together "
    "and\n"
    "hold, as a higher price with a class bound that is still kept. They are another certificate, "
    "and\n"
    "as true.\n"
    "A plan that was made around another with --keep cannot be verified from its garden alone.\n"
    "Exit status: 0 all is proved; 1 refuted, or not all proved in the time; 2 unreadable.";

struct Options {
  std::string garden;
  std::string plan;
  std::string certificate;
  std::string crops;
  std::string within = "120s";
};

load::TextOrReason read_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  if (!in || !(text << in.rdbuf())) return {{}, std::strerror(errno)};
  return {text.str(), {}};
}

std::optional<double> seconds_of(const std::string& text) {
  std::size_t used = 0;
  double number = 0.0;
  try {
    number = std::stod(text, &used);
  } catch (const std::exception&) {
    return {};
  }
  const std::string unit = text.substr(used);
  if (!(number > 0.0) || !std::isfinite(number)) return {};
  if (unit == "s") return number;
  if (unit == "m" || unit == "min") return 60.0 * number;
  if (unit == "h") return 3600.0 * number;
  return {};
}

/// Empty after telling why.
std::optional<load::LoadedGarden> read_garden(const Options& options,
                                              diagnostic::Diagnostics& said) {
  std::optional<catalogue::Catalogue> base = load::embedded_catalogue();
  if (!options.crops.empty()) base = load::load_catalogue(*base, options.crops, read_file, said);
  if (!base) return {};
  std::error_code error;
  std::filesystem::path path = options.garden;
  if (std::filesystem::is_directory(path, error)) path /= "garden.yaml";
  return load::load_garden(path.string(), *base, read_file, said);
}

void tell_errors(const diagnostic::Diagnostics& said) {
  for (const auto& one : said.all()) {
    if (one.severity != diagnostic::Severity::Error) continue;
    fmt::print(stderr, "{}\n", diagnostic::render_concise(one));
  }
}

int tell(const Proof& proof) {
  for (const std::string& line : proof.lines) fmt::print("{}\n", line);
  for (const std::string& line : proof.refuted) fmt::print("refuted: {}\n", line);
  if (!proof.refuted.empty()) {
    fmt::print("REFUTED: {} of the certificate's claims\n", proof.refuted.size());
    return kNotProved;
  }
  fmt::print(
      "{}: no plan on this land is worth more than {:.6g}; this one is worth {:.6g}, "
      "{:.2f} % below\n",
      proof.holds() ? "PROVED" : "NOT ALL PROVED", proof.bound, proof.value, 100.0 * proof.gap());
  return proof.holds() ? kProved : kNotProved;
}

int run(const Options& options) {
  const auto began = std::chrono::steady_clock::now();
  const std::function<double()> seconds = [&] {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  };
  const auto within = seconds_of(options.within);
  if (!within) {
    fmt::print(stderr, "--within {}: write a time with its unit, as 60s or 10m\n", options.within);
    return kUnreadable;
  }
  diagnostic::Diagnostics said;
  const auto loaded = read_garden(options, said);
  const auto plan = loaded ? load::load_plan(options.plan, *loaded, read_file, said) : std::nullopt;
  if (!plan) {
    tell_errors(said);
    return kUnreadable;
  }
  const load::TextOrReason text = read_file(options.certificate);
  const auto claims = text.text ? read_claims(*text.text) : text.reason;
  if (const auto* why = std::get_if<std::string>(&claims)) {
    fmt::print(stderr, "{}: {}\n", options.certificate, *why);
    return kUnreadable;
  }
  return tell(prove(*loaded, *plan, std::get<Claims>(claims), *within, seconds));
}

}  // namespace
}  // namespace aftercrop::verifier

int main(int argc, char** argv) {
  aftercrop::verifier::Options options;
  CLI::App app("Proves what a plan's certificate says, or refutes it", "verify");
  app.add_option("garden", options.garden, "garden file, or the folder it lies in")->required();
  app.add_option("plan", options.plan, "plan that was made for it")->required();
  app.add_option("certificate", options.certificate, "what plan --certificate wrote")->required();
  app.add_option("--within", options.within, "time for following paths, as 600s or 10m")
      ->capture_default_str();
  app.add_option("--crops", options.crops, "crop file that the plan was made with");
  app.footer(aftercrop::verifier::kFooter);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : aftercrop::verifier::kUnreadable;
  }
  return aftercrop::verifier::run(options);
}
