#include "cli/write_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <system_error>

#include "cli/own_mark.h"
#include "cli/read_file.h"

namespace aftercrop::cli {
namespace {

namespace fs = std::filesystem;
using Reason = std::optional<std::string>;

constexpr const char* kStandardOutput = "/dev/stdout";
constexpr const char* kStandardError = "/dev/stderr";
constexpr mode_t kPermissions = 07777;
constexpr mode_t kUsualMode = 0666;

std::string reason_of(int error) { return std::generic_category().message(error); }

/// Empty = all written.
Reason write_all(int descriptor, std::string_view text) {
  while (!text.empty()) {
    const ssize_t done = ::write(descriptor, text.data(), text.size());
    if (done < 0 && errno == EINTR) continue;
    if (done < 0) return reason_of(errno);
    text.remove_prefix(static_cast<std::size_t>(done));
  }
  return {};
}

/// Our own streams by their names: opened anew, a redirected one would be written from its start.
int open_stream(const std::string& path) {
  if (path == kStandardOutput) return ::dup(STDOUT_FILENO);
  if (path == kStandardError) return ::dup(STDERR_FILENO);
  return ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
}

Reason write_straight(const std::string& path, std::string_view text) {
  std::fflush(stdout);
  const int descriptor = open_stream(path);
  if (descriptor < 0) return reason_of(errno);
  Reason failure = write_all(descriptor, text);
  if (::close(descriptor) != 0 && !failure) failure = reason_of(errno);
  return failure;
}

mode_t mode_for(const std::string& path) {
  struct stat old {};
  if (::stat(path.c_str(), &old) == 0) return old.st_mode & kPermissions;
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return kUsualMode & ~mask;
}

/// Makes a rename outlive a loss of power; a file system that cannot is no reason to complain.
void settle_folder(const fs::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  ::fsync(descriptor);
  ::close(descriptor);
}

Reason fill(int descriptor, std::string_view text, mode_t mode) {
  Reason failure = write_all(descriptor, text);
  if (!failure && ::fchmod(descriptor, mode) != 0) failure = reason_of(errno);
  if (!failure && ::fsync(descriptor) != 0) failure = reason_of(errno);
  if (::close(descriptor) != 0 && !failure) failure = reason_of(errno);
  return failure;
}

Reason write_beside(const fs::path& target, std::string_view text) {
  const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
  std::string beside = (folder / ("." + target.filename().string() + ".XXXXXX")).string();
  const int descriptor = ::mkstemp(beside.data());
  if (descriptor < 0) return reason_of(errno);
  Reason failure = fill(descriptor, text, mode_for(target.string()));
  if (!failure && ::rename(beside.c_str(), target.c_str()) != 0) failure = reason_of(errno);
  if (failure) {
    ::unlink(beside.c_str());
    return failure;
  }
  settle_folder(folder);
  return {};
}

}  // namespace

bool is_stream(const std::string& path) {
  if (path == kStandardOutput || path == kStandardError) return true;
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) return false;
  return !S_ISREG(status.st_mode) && !S_ISDIR(status.st_mode);
}

std::optional<std::string> write_whole(const std::string& path, std::string_view text) {
  if (is_stream(path)) return write_straight(path, text);
  std::error_code error;
  if (fs::is_directory(path, error)) return reason_of(EISDIR);
  if (!fs::is_symlink(path, error)) return write_beside(path, text);
  const fs::path target = fs::canonical(path, error);
  if (error) return "it is a link that leads nowhere";
  return write_beside(target, text);
}

std::optional<std::string> why_not_replace(const std::string& path, std::string_view text) {
  std::error_code error;
  if (!fs::is_regular_file(path, error)) return {};
  const load::TextOrReason old_text = read_file(path);
  if (!old_text.text) return old_text.reason;
  if (old_text.text->empty() || *old_text.text == text) return {};
  if (untouched(*old_text.text, mark_form(path))) return {};
  return "it was edited, or aftercrop did not write it; name another file, or say --force";
}

std::optional<std::string> write_output(const std::string& path, std::string_view text,
                                        bool force) {
  if (is_stream(path)) return write_whole(path, text);
  const std::string whole = marked(text, mark_form(path));
  if (!force) {
    if (Reason refusal = why_not_replace(path, whole)) return refusal;
  }
  return write_whole(path, whole);
}

}  // namespace aftercrop::cli
