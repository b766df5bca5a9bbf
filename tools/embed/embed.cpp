// Part of the build: turns the files of crops/ into C++.
//   embed FILE.yaml OUT.cpp          one file as the bytes of its tree
//   embed --index OUT.cpp NAME...    the list of all of them
//   embed --text FILE OUT.cpp NAME FOLDER   a text of plain ASCII as it is:
//   aftercrop::FOLDER::NAME()
#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <memory>
#include <string>
#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/diagnostic/render.h"
#include "aftercrop/load/tree.h"
#include "load/packed_tree.h"

namespace {

std::string stem(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  const std::string file = slash == std::string::npos ? path : path.substr(slash + 1);
  return file.substr(0, file.find('.'));
}

std::string function(const std::string& path) {
  std::string name = "packed_" + stem(path);
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

bool write(const std::string& path, const std::string& text) {
  std::ofstream out(path, std::ios::binary);
  out << text;
  return static_cast<bool>(out.flush());
}

std::string as_source(const std::string& name, const std::string& bytes) {
  std::string text = fmt::format(
      "#include <span>\n"
      "namespace aftercrop::load {{\n"
      "static constexpr unsigned char kBytes[{}] = {{",
      bytes.size());
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (i % 32 == 0) text += '\n';
    text += fmt::format("{},", static_cast<int>(static_cast<unsigned char>(bytes[i])));
  }
  return text + fmt::format(
                    "}};\n"
                    "std::span<const unsigned char> {0}();\n"
                    "std::span<const unsigned char> {0}() {{ return kBytes; }}\n"
                    "}}  // namespace aftercrop::load\n",
                    name);
}

int embed(const std::string& in_path, const std::string& out_path) {
  std::ifstream in(in_path, std::ios::binary);
  auto file = std::make_shared<aftercrop::diagnostic::SourceFile>();
  file->name = in_path;
  file->text.assign(std::istreambuf_iterator<char>(in), {});
  aftercrop::diagnostic::Diagnostics found;
  const auto tree = aftercrop::load::parse_yaml(file, found);
  for (const auto& one : found.all()) {
    fmt::print(stderr, "{}\n", aftercrop::diagnostic::render_concise(one));
  }
  if (!in || tree == nullptr || found.has_errors()) return 1;
  const std::string bytes = aftercrop::load::pack(*tree);
  return write(out_path, as_source(function(in_path), bytes)) ? 0 : 1;
}

int index(const std::string& out_path, const std::vector<std::string>& files) {
  std::string declared;
  std::string rows;
  for (const std::string& file : files) {
    declared += fmt::format("std::span<const unsigned char> {}();\n", function(file));
    rows += fmt::format("      EmbeddedFile{{\"{}\", {}()}},\n", file, function(file));
  }
  const std::string text = fmt::format(
      "#include \"load/embedded_files.h\"\n"
      "#include <array>\n"
      "namespace aftercrop::load {{\n"
      "{}"
      "std::span<const EmbeddedFile> embedded_files() {{\n"
      "  static const std::array<EmbeddedFile, {}> kFiles = {{\n{}  }};\n"
      "  return kFiles;\n"
      "}}\n"
      "}}  // namespace aftercrop::load\n",
      declared, files.size(), rows);
  return write(out_path, text) ? 0 : 1;
}

/// `words` = in, out, name, folder.
int text(const std::vector<std::string>& words) {
  std::ifstream in(words[0], std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  std::string numbers;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    numbers += fmt::format("{}{},", i % 32 == 0 ? "\n" : "", static_cast<int>(bytes[i]));
  }
  const std::string source = fmt::format(
      "#include <string_view>\n"
      "namespace aftercrop::{3} {{\n"
      "static constexpr char kText[{0}] = {{{1}}};\n"
      "std::string_view {2}();\n"
      "std::string_view {2}() {{ return {{kText, {0}}}; }}\n"
      "}}  // namespace aftercrop::{3}\n",
      bytes.size(), numbers, words[2], words[3]);
  return !bytes.empty() && write(words[1], source) ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words(argv + 1, argv + argc);
  if (words.size() > 2 && words[0] == "--index") {
    return index(words[1], {words.begin() + 2, words.end()});
  }
  if (words.size() == 5 && words[0] == "--text") return text({words.begin() + 1, words.end()});
  return words.size() == 2 ? embed(words[0], words[1]) : 2;
}
