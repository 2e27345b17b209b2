#include "output/folder_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <ctime>
#include <filesystem>
#include <fstream>

#include "base/problems.h"

namespace dapple {

namespace {

std::string this_process() {
    std::array<char, 256> host{};
    if (::gethostname(host.data(), host.size() - 1) != 0) host[0] = '?';
    std::array<char, 64> time{};
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    ::localtime_r(&now, &local);
    std::strftime(time.data(), time.size(), "%Y-%m-%d %H:%M", &local);
    return "process " + std::to_string(::getpid()) + " on " + host.data() + ", since " +
           time.data();
}

std::string read_all(const std::string& path) {
    std::ifstream in(path);
    std::string text;
    std::getline(in, text);
    return text.empty() ? "another process" : text;
}

}  // namespace

FolderLock::FolderLock(const std::string& folder)
    : holder_path_(
          (std::filesystem::path(folder.empty() ? "." : folder) / ".dapple-lock").string()),
      descriptor_(
          ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
    if (descriptor_ < 0) return;
    if (::flock(descriptor_, LOCK_EX | LOCK_NB) == 0) {
        std::ofstream(holder_path_) << this_process() << '\n';  // only for messages
        return;
    }
    const bool is_held = errno == EWOULDBLOCK;
    ::close(descriptor_);
    descriptor_ = -1;
    if (is_held) throw FileError(folder, "is being written by " + read_all(holder_path_));
}

FolderLock::~FolderLock() {
    if (descriptor_ < 0) return;
    ::unlink(holder_path_.c_str());
    ::close(descriptor_);
}

}  // namespace dapple
