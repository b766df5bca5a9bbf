#include "bench/general/solve.h"

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <regex>
#include <sstream>

#include <fmt/format.h>

namespace aftercrop::bench {
namespace {

constexpr double kGap = 0.01;
constexpr double kNothing = 1e40;  // cbc's value of no solution

/// Reads a line of cbc's talk: the best solution and bound so far, at which second.
void follow(const std::string& line, Solved& solved) {
  static const std::regex kNodes(
      R"(best solution ([-+.\de]+|\S+), best possible ([-+.\de]+) \(([\d.]+) seconds\))");
  static const std::regex kBound(R"((?:Lower bound:\s+|best possible )([-+.\de]+))");
  std::smatch match;
  if (std::regex_search(line, match, kNodes)) {
    const double best = std::strtod(match[1].str().c_str(), nullptr);
    const double bound = std::strtod(match[2].str().c_str(), nullptr);
    solved.bound = -bound;
    if (std::abs(best) < kNothing && bound - best >= -kGap * std::abs(bound) &&
        !solved.seconds_to_gap) {
      solved.seconds_to_gap = std::strtod(match[3].str().c_str(), nullptr);
    }
  } else if (std::regex_search(line, match, kBound)) {
    solved.bound = -std::strtod(match[1].str().c_str(), nullptr);
  }
}

/// The solution file: a first line with status and value, then a line a column that is not 0.
void read_solution(const std::string& file, std::size_t columns, Solved& solved) {
  std::ifstream in(file);
  std::string line;
  if (!std::getline(in, line)) return;
  solved.status = line.substr(0, line.find(" - "));
  static const std::regex kValue(R"(objective value ([-+.\de]+))");
  std::smatch match;
  if (!std::regex_search(line, match, kValue)) return;
  const double cost = std::strtod(match[1].str().c_str(), nullptr);
  const bool nothing = solved.status.find("nfeasible") != std::string::npos ||
                       solved.status.find("no integer") != std::string::npos;
  if (nothing || std::abs(cost) >= kNothing) return;
  solved.value = -cost;
  solved.columns.assign(columns, 0.0);
  while (std::getline(in, line)) {
    std::istringstream words(line);
    std::string place;
    std::string name;
    double value = 0.0;
    words >> place;
    if (place == "**") words >> place;
    words >> name >> value;
    if (name.size() < 2 || name.front() != 'c') continue;
    const auto column = static_cast<std::size_t>(std::atol(name.c_str() + 1));
    if (column < columns) solved.columns[column] = value;
  }
}

}  // namespace

std::optional<Solved> solve(const Program& program, const std::string& file, double within_seconds,
                            int threads) {
  {
    std::ofstream out(file);
    out << program.mps();
    if (!out) return {};
  }
  const std::string answer = file + ".solution";
  std::remove(answer.c_str());
  // The gap is closed to the last: cbc stops at its own tolerance, the optimum, or the time.
  const std::string command =
      fmt::format("cbc {} timeMode elapsed sec {:.0f} threads {} ratioGap 0 solve solution {} 2>&1",
                  file, within_seconds, threads, answer);
  const auto began = std::chrono::steady_clock::now();
  std::FILE* talk = popen(command.c_str(), "r");
  if (talk == nullptr) return {};
  Solved solved;
  std::string log;
  char buffer[4096];
  while (std::fgets(buffer, sizeof buffer, talk) != nullptr) {
    follow(buffer, solved);
    log += buffer;
  }
  const int ended = pclose(talk);
  solved.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  std::ofstream(file + ".log") << log;
  if (ended != 0) return {};
  read_solution(answer, program.columns(), solved);
  if (solved.status == "Optimal" && solved.value) {
    solved.bound = solved.value;
    if (!solved.seconds_to_gap) solved.seconds_to_gap = solved.seconds;
  }
  return solved;
}

}  // namespace aftercrop::bench
