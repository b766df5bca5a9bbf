#include "cli/suggestion.h"

#include <fmt/format.h>

#include <algorithm>

#include "aftercrop/load/names.h"

namespace aftercrop::cli {
namespace {

using Words = std::vector<std::string>;

std::string guess(const std::string& word, const Words& known) {
  const auto near = load::did_you_mean(word, known);
  return near ? fmt::format("; did you mean {}?", *near) : std::string();
}

/// "--color=auto" without its value.
std::string option_name(const std::string& word) { return word.substr(0, word.find('=')); }

void add_long_names(const CLI::App& app, Words& known) {
  for (const CLI::Option* option : app.get_options()) {
    for (const std::string& name : option->get_lnames()) known.push_back("--" + name);
  }
}

Words commands_of(const CLI::App& app) {
  Words known;
  for (const CLI::App* command : app.get_subcommands(nullptr)) known.push_back(command->get_name());
  return known;
}

bool takes_value(const CLI::App& app, const std::string& word) {
  if (word.find('=') != std::string::npos) return false;
  const CLI::Option* option = app.get_option_no_throw(word);
  return option != nullptr && option->get_items_expected_min() > 0;
}

/// The place of the command's word; the number of words where there is none.
std::size_t command_place(const CLI::App& app, const Words& words) {
  std::size_t i = 0;
  while (i < words.size() && !words[i].empty() && words[i].front() == '-') {
    i += takes_value(app, words[i]) ? 2 : 1;
  }
  return std::min(i, words.size());
}

}  // namespace

std::optional<std::string> misspelt(const CLI::App& app, const Words& words) {
  Words options;
  add_long_names(app, options);
  const std::size_t place = command_place(app, words);
  if (place < words.size()) {
    const Words commands = commands_of(app);
    if (std::find(commands.begin(), commands.end(), words[place]) == commands.end()) {
      return fmt::format("there is no command \"{}\"{}", words[place],
                         guess(words[place], commands));
    }
    add_long_names(*app.get_subcommand(words[place]), options);
  }
  for (const std::string& word : words) {
    if (word == "--") break;
    if (word.substr(0, 2) != "--") continue;
    const std::string name = option_name(word);
    if (std::find(options.begin(), options.end(), name) != options.end()) continue;
    return fmt::format("there is no option {} here{}", name, guess(name, options));
  }
  return {};
}

}  // namespace aftercrop::cli
