#include "output/folder_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <thread>

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

std::string first_line_of(const std::string& path) {
    std::ifstream in(path);
    std::string text;
    std::getline(in, text);
    return text.empty() ? "another process" : text;
}

std::string holder_path(const std::string& folder) {
    return (std::filesystem::path(folder.empty() ? "." : folder) / ".dapple-lock").string();
}

int open_folder(const std::string& folder) {
    return ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
}

// A look at the lock (holder_of_folder) holds it for a moment, so this tries several times.
bool lock_alone(int descriptor) {
    for (int tries = 0; tries < 5; ++tries) {
        if (::flock(descriptor, LOCK_EX | LOCK_NB) == 0) return true;
        if (errno != EWOULDBLOCK) return false;
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    errno = EWOULDBLOCK;
    return false;
}

}  // namespace

FolderLock::FolderLock(const std::string& folder)
    : holder_path_(holder_path(folder)), descriptor_(open_folder(folder)) {
    if (descriptor_ < 0) return;
    if (lock_alone(descriptor_)) {
        std::ofstream(holder_path_) << this_process() << '\n';  // only for messages
        return;
    }
    const bool is_held = errno == EWOULDBLOCK;
    ::close(descriptor_);
    descriptor_ = -1;
    if (is_held) throw FileError(folder, "is being written by " + first_line_of(holder_path_));
}

FolderLock::~FolderLock() {
    if (descriptor_ < 0) return;
    ::unlink(holder_path_.c_str());
    ::close(descriptor_);
}

std::string holder_of_folder(const std::string& folder) {
    const int descriptor = open_folder(folder);
    if (descriptor < 0) return "";
    const bool is_held = ::flock(descriptor, LOCK_SH | LOCK_NB) != 0 && errno == EWOULDBLOCK;
    ::close(descriptor);
    return is_held ? first_line_of(holder_path(folder)) : "";
}

}  // namespace dapple
