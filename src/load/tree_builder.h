#pragma once

#include <yaml-cpp/eventhandler.h>

#include <map>
#include <string>
#include <vector>

#include "aftercrop/diagnostic/diagnostic.h"
#include "aftercrop/load/tree.h"
#include "load/tree_text.h"

namespace aftercrop::load {

/// Builds a Node from a parser's events and refuses what our files must not hold.
class TreeBuilder : public YAML::EventHandler {
 public:
  /// Thrown to end the parsing once its reason has been reported.
  struct Stop {};

  TreeBuilder(const TextLines& lines, diagnostic::Diagnostics& out) : lines_(lines), out_(out) {}

  [[nodiscard]] const Node& root() const { return root_; }
  [[nodiscard]] Node take() { return std::move(root_); }

  void OnDocumentStart(const YAML::Mark& mark) override;
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override;
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override;
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value style) override;
  void OnSequenceEnd() override;
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value style) override;
  void OnMapEnd() override;

 protected:
  /// Reports and ends the parsing.
  [[noreturn]] void fail(const YAML::Mark& mark, const char* id, const char* message,
                         const char* help);

 private:
  /// A sequence or map that is not finished.
  struct Open {
    Node node;
    bool awaits_key = false;  ///< maps only
    std::map<std::string, diagnostic::Source> seen;
  };

  void report(const YAML::Mark& mark, const char* id, const char* message, const char* help);
  void check_properties(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor);
  void open(const YAML::Mark& mark, Node::Kind kind);
  void close();
  void place(Node node);
  void place_key(Node node);
  void place_value(Open& map, Node node);

  const TextLines& lines_;
  diagnostic::Diagnostics& out_;
  std::vector<Open> open_;
  Node root_;
  int values_ = 0;
  int reports_ = 0;
};

}  // namespace aftercrop::load
