#include "cli/read_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <system_error>

namespace aftercrop::cli {
namespace {

constexpr std::size_t kMostBytes = std::size_t{64} << 20;
constexpr std::size_t kBlock = 65536;

load::TextOrReason failure(int error) { return {{}, std::generic_category().message(error)}; }

load::TextOrReason read_all(int descriptor) {
  std::string text;
  std::array<char, kBlock> block{};
  while (true) {
    const ssize_t got = ::read(descriptor, block.data(), block.size());
    if (got == 0) return {std::move(text), {}};
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return failure(errno);
    text.append(block.data(), static_cast<std::size_t>(got));
    if (text.size() > kMostBytes) return {{}, "larger than 64 MB"};
  }
}

}  // namespace

load::TextOrReason read_file(const std::string& path) {
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return failure(errno);
  load::TextOrReason result = read_all(descriptor);
  ::close(descriptor);
  return result;
}

}  // namespace aftercrop::cli
