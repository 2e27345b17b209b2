// Files that are whole or not there. Bytes go to `PATH.partial` in the same folder; commit() puts
// them safely on the disk and renames the file into place. Until then, and whenever anything goes
// wrong, what stood at PATH before is untouched and the partial file is removed.
// All throw FileError with the path and the system's reason.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace dapple {

// Makes the folder where it is missing, and tries that a file can be made in it: before hours of
// work, not after.
void check_writable_folder(const std::string& path);

class SafeFile {
  public:
    // Makes the folder of `path` where it is missing.
    explicit SafeFile(std::string path);
    ~SafeFile();
    SafeFile(const SafeFile&) = delete;
    SafeFile& operator=(const SafeFile&) = delete;

    void write_at(const void* data, size_t size, int64_t offset);
    int64_t size() const;
    void commit();

    const std::string& path() const { return path_; }
    int descriptor() const { return descriptor_; }

  private:
    void discard() noexcept;

    std::string path_;
    std::string partial_path_;
    int descriptor_ = -1;
};

void write_text(const std::string& path, std::string_view text);

}  // namespace dapple
