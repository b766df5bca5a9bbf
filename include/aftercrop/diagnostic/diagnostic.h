#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercrop/calendar/week.h"

namespace aftercrop::diagnostic {

/// A text that was read: kept whole so that a message can show the line it speaks of.
struct SourceFile {
  std::string name;  ///< as the user named it
  std::string text;  ///< without a byte order mark

  /// Line `number` (1-based) without its line end; empty outside the file.
  [[nodiscard]] std::string_view line(int number) const;
};

/// Where something was said: 1-based line and column (in characters, not bytes). It travels with
/// the object from the first read, and does not count when objects are compared.
struct Source {
  std::shared_ptr<const SourceFile> file;
  int line = 0;  ///< 0 = nowhere in a file
  int column = 0;
  int length = 1;  ///< characters that the caret line marks

  [[nodiscard]] bool known() const { return file != nullptr && line > 0; }
  friend bool operator==(const Source&, const Source&) { return true; }
};

enum class Severity { Note, Warning, Error };
[[nodiscard]] std::string_view name(Severity severity);

/// Another place that a message is about ("nightshades stood here until 2026-10-02").
struct Related {
  std::string message;
  Source source;
};

/// What a finding measured, for readers that are programs.
struct Measure {
  double computed = 0.0;
  double limit = 0.0;
  std::string unit;
};

/// One thing to tell a user. Data only: no colours, no line breaks.
struct Diagnostic {
  std::string id;  ///< words in kebab-case, naming the pattern
  Severity severity = Severity::Error;
  std::string message;  ///< one phrase that stands alone, no full stop
  Source source;
  std::vector<Related> related;
  std::string help;                     ///< the way out; may be empty
  std::vector<std::string> references;  ///< published sources of the rule
  std::string bed;                      ///< findings only
  std::string cause;  ///< findings only: equal where a reader would say "the same again"
  std::optional<calendar::Week> week;  ///< findings only
  std::optional<Measure> measure;      ///< findings only
};

/// The sink that every reader and check reports to. Nothing is thrown for bad user data.
class Diagnostics {
 public:
  Diagnostic& add(Diagnostic diagnostic);
  Diagnostic& error(std::string id, std::string message, Source source, std::string help = {});
  Diagnostic& warning(std::string id, std::string message, Source source, std::string help = {});
  Diagnostic& note(std::string id, std::string message, Source source, std::string help = {});

  [[nodiscard]] const std::vector<Diagnostic>& all() const { return all_; }
  [[nodiscard]] int count(Severity severity) const;
  [[nodiscard]] bool has_errors() const { return count(Severity::Error) > 0; }
  void append(const Diagnostics& other);
  /// Stable sort by file, line, column, id.
  void sort();

 private:
  std::vector<Diagnostic> all_;
};

}  // namespace aftercrop::diagnostic
