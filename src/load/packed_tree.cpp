#include "load/packed_tree.h"

#include <cassert>
#include <utility>

namespace aftercrop::load {
namespace {

using diagnostic::Source;

constexpr unsigned kQuoted = 8;

void put(std::string& bytes, std::size_t number) {
  while (number >= 128) {
    bytes += static_cast<char>(static_cast<unsigned char>(number % 128 + 128));
    number /= 128;
  }
  bytes += static_cast<char>(number);
}

void put(std::string& bytes, const std::string& text) {
  put(bytes, text.size());
  bytes += text;
}

void put(std::string& bytes, const Source& source) {
  put(bytes, static_cast<std::size_t>(source.line));
  put(bytes, static_cast<std::size_t>(source.column));
  put(bytes, static_cast<std::size_t>(source.length));
}

void put(std::string& bytes, const Node& node) {
  put(bytes, static_cast<std::size_t>(node.kind) + (node.quoted ? kQuoted : 0));
  put(bytes, node.source);
  if (node.is_scalar()) put(bytes, node.text);
  if (!node.is_map() && !node.is_sequence()) return;
  put(bytes, node.items.size());
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    if (node.is_map()) {
      put(bytes, node.keys[i]);
      put(bytes, node.key_sources[i]);
    }
    put(bytes, node.items[i]);
  }
}

class Unpacker {
 public:
  Unpacker(std::span<const unsigned char> bytes, std::shared_ptr<const diagnostic::SourceFile> file)
      : bytes_(bytes), file_(std::move(file)) {}

  void node(Node& into) {
    const std::size_t head = number();
    into.kind = static_cast<Node::Kind>(head % kQuoted);
    into.quoted = head >= kQuoted;
    source(into.source);
    if (into.is_scalar()) text(into.text);
    if (!into.is_map() && !into.is_sequence()) return;
    const std::size_t count = number();
    into.items.resize(count);
    if (into.is_map()) {
      into.keys.resize(count);
      into.key_sources.resize(count);
    }
    for (std::size_t i = 0; i < count; ++i) {
      if (into.is_map()) {
        text(into.keys[i]);
        source(into.key_sources[i]);
      }
      node(into.items[i]);
    }
  }

  [[nodiscard]] bool at_end() const { return next_ == bytes_.size(); }

 private:
  std::size_t number() {
    std::size_t value = 0;
    for (unsigned shift = 0;; shift += 7) {
      assert(next_ < bytes_.size() && "packed trees end where their last node ends");
      const unsigned char byte = bytes_[next_++];
      value += static_cast<std::size_t>(byte % 128) << shift;
      if (byte < 128) return value;
    }
  }
  void text(std::string& into) {
    const std::size_t size = number();
    const auto bytes = bytes_.subspan(next_, size);
    into.assign(bytes.begin(), bytes.end());
    next_ += size;
  }
  void source(Source& into) {
    into.file = file_;
    into.line = static_cast<int>(number());
    into.column = static_cast<int>(number());
    into.length = static_cast<int>(number());
  }

  std::span<const unsigned char> bytes_;
  std::shared_ptr<const diagnostic::SourceFile> file_;
  std::size_t next_ = 0;
};

}  // namespace

std::string pack(const Node& node) {
  std::string bytes;
  put(bytes, node);
  return bytes;
}

Node unpack(std::span<const unsigned char> bytes,
            const std::shared_ptr<const diagnostic::SourceFile>& file) {
  Node root;
  Unpacker unpacker(bytes, file);
  unpacker.node(root);
  assert(unpacker.at_end() && "packed trees hold nothing after their last node");
  return root;
}

}  // namespace aftercrop::load
