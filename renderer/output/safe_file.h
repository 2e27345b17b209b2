// Files that are written whole or not at all. Bytes go to `PATH.partial` in the same folder;
// commit() syncs them to the disk and renames the file to PATH. Until then, and after any error, an
// older file at PATH is untouched. Without a commit the partial file is removed.
// All functions throw FileError with the path and the system's reason; it is a DiskError if nothing
// else can be written there either.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/problems.h"

namespace dapple {

// The disk is full, failing or read-only.
class DiskError : public FileError {
  public:
    using FileError::FileError;
};

// Makes the folder if it is missing, and checks that a file can be made in it. Called before hours
// of work, not after.
void check_writable_folder(const std::string& path);

class SafeFile {
  public:
    // Makes the folder of `path` if it is missing.
    explicit SafeFile(std::string path);
    ~SafeFile();
    SafeFile(const SafeFile&) = delete;
    SafeFile& operator=(const SafeFile&) = delete;

    void write_at(const void* data, size_t size, int64_t offset);
    int64_t size() const;
    void commit();

    const std::string& path() const { return path_; }
    const std::string& partial_path() const { return partial_path_; }
    int descriptor() const { return descriptor_; }

  private:
    void discard() noexcept;

    std::string path_;
    std::string partial_path_;
    int descriptor_ = -1;
};

void write_text(const std::string& path, std::string_view text);

}  // namespace dapple
