#include "output/safe_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>
#include <utility>

namespace dapple {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void fail(const std::string& path, const std::string& what, int error) {
    if (error == ENOSPC || error == EDQUOT || error == EIO || error == EROFS) {
        throw DiskError(path, what + ": " + std::strerror(error));
    }
    throw FileError(path, what + ": " + std::strerror(error));
}

void make_folder(const fs::path& folder) {
    if (folder.empty()) return;
    std::error_code error;
    fs::create_directories(folder, error);
    if (fs::is_directory(folder)) return;
    if (!error) error = std::make_error_code(std::errc::not_a_directory);
    throw FileError(folder.string(), "cannot be made a folder: " + error.message());
}

int open_new(const std::string& path) {
    return ::open(path.c_str(), O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
}

}  // namespace

void check_writable_folder(const std::string& path) {
    const fs::path folder = path.empty() ? fs::path(".") : fs::path(path);
    make_folder(folder);
    const std::string trial = (folder / (".dapple-" + std::to_string(::getpid()))).string();
    const int descriptor = open_new(trial);
    if (descriptor < 0) fail(folder.string(), "cannot be written to", errno);
    ::close(descriptor);
    ::unlink(trial.c_str());
}

SafeFile::SafeFile(std::string path) : path_(std::move(path)), partial_path_(path_ + ".partial") {
    if (fs::is_directory(path_)) fail(path_, "cannot be written", EISDIR);
    make_folder(fs::path(path_).parent_path());
    descriptor_ = open_new(partial_path_);
    if (descriptor_ < 0) fail(path_, "cannot be written", errno);
}

SafeFile::~SafeFile() {
    discard();
}

void SafeFile::discard() noexcept {
    if (descriptor_ < 0) return;
    ::close(descriptor_);
    descriptor_ = -1;
    ::unlink(partial_path_.c_str());
}

void SafeFile::write_at(const void* data, size_t size, int64_t offset) {
    const char* bytes = static_cast<const char*>(data);
    while (size > 0) {
        const ssize_t written = ::pwrite(descriptor_, bytes, size, offset);
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) fail(path_, "cannot be written", written < 0 ? errno : ENOSPC);
        bytes += written;
        size -= static_cast<size_t>(written);
        offset += written;
    }
}

int64_t SafeFile::size() const {
    struct stat status = {};
    return ::fstat(descriptor_, &status) == 0 ? status.st_size : 0;
}

void SafeFile::commit() {
    // A full disk may report its error only here. Pipes and the like cannot be synced.
    if (::fsync(descriptor_) != 0 && errno != EINVAL) fail(path_, "cannot be written", errno);
    const int closed = ::close(descriptor_);
    const int close_error = errno;
    descriptor_ = -1;
    if (closed == 0 && std::rename(partial_path_.c_str(), path_.c_str()) == 0) return;
    const int error = closed == 0 ? errno : close_error;
    ::unlink(partial_path_.c_str());
    fail(path_, "cannot be written", error);
}

void write_text(const std::string& path, std::string_view text) {
    SafeFile file(path);
    file.write_at(text.data(), text.size(), 0);
    file.commit();
}

}  // namespace dapple
