#include "aftercrop/diagnostic/diagnostic.h"

#include <algorithm>
#include <tuple>

namespace aftercrop::diagnostic {
namespace {

Diagnostic make(std::string id, Severity severity, std::string message, Source source,
                std::string help) {
  Diagnostic made;
  made.id = std::move(id);
  made.severity = severity;
  made.message = std::move(message);
  made.source = std::move(source);
  made.help = std::move(help);
  return made;
}

std::string_view file_name(const Source& source) {
  return source.file ? std::string_view(source.file->name) : std::string_view();
}

bool before(const Diagnostic& a, const Diagnostic& b) {
  return std::make_tuple(file_name(a.source), a.source.line, a.source.column,
                         std::string_view(a.id)) < std::make_tuple(file_name(b.source),
                                                                   b.source.line, b.source.column,
                                                                   std::string_view(b.id));
}

}  // namespace

std::string_view SourceFile::line(int number) const {
  if (number < 1) return {};
  std::size_t start = 0;
  for (int i = 1; i < number; ++i) {
    const std::size_t end = text.find('\n', start);
    if (end == std::string::npos) return {};
    start = end + 1;
  }
  std::string_view rest = std::string_view(text).substr(start);
  rest = rest.substr(0, rest.find('\n'));
  if (!rest.empty() && rest.back() == '\r') rest.remove_suffix(1);
  return rest;
}

std::string_view name(Severity severity) {
  switch (severity) {
    case Severity::Note:
      return "note";
    case Severity::Warning:
      return "warning";
    case Severity::Error:
      break;
  }
  return "error";
}

Diagnostic& Diagnostics::add(Diagnostic diagnostic) {
  all_.push_back(std::move(diagnostic));
  return all_.back();
}

Diagnostic& Diagnostics::error(std::string id, std::string message, Source source,
                               std::string help) {
  return add(
      make(std::move(id), Severity::Error, std::move(message), std::move(source), std::move(help)));
}

Diagnostic& Diagnostics::warning(std::string id, std::string message, Source source,
                                 std::string help) {
  return add(make(std::move(id), Severity::Warning, std::move(message), std::move(source),
                  std::move(help)));
}

Diagnostic& Diagnostics::note(std::string id, std::string message, Source source,
                              std::string help) {
  return add(
      make(std::move(id), Severity::Note, std::move(message), std::move(source), std::move(help)));
}

int Diagnostics::count(Severity severity) const {
  return static_cast<int>(
      std::count_if(all_.begin(), all_.end(),
                    [severity](const Diagnostic& one) { return one.severity == severity; }));
}

void Diagnostics::append(const Diagnostics& other) {
  const std::vector<Diagnostic> copy = other.all_;
  all_.insert(all_.end(), copy.begin(), copy.end());
}

void Diagnostics::sort() { std::stable_sort(all_.begin(), all_.end(), before); }

}  // namespace aftercrop::diagnostic
