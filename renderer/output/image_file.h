// The image library's writers, made to write into a SafeFile. Private to this folder.
#pragma once

#include <OpenImageIO/filesystem.h>
#include <OpenImageIO/imageio.h>

#include <exception>
#include <memory>
#include <string>

#include "output/safe_file.h"

namespace dapple {

// Receives the bytes that the library writes. The caller may be C code, through which no exception
// may pass, so the first exception is kept here.
class SafeFileProxy : public OIIO::Filesystem::IOProxy {
  public:
    explicit SafeFileProxy(SafeFile& file) : IOProxy(file.path(), IOProxy::Write), file_(file) {}

    const char* proxytype() const override { return "dapple"; }
    size_t write(const void* data, size_t size) override;
    size_t pwrite(const void* data, size_t size, int64_t offset) override;
    size_t read(void* data, size_t size) override;
    size_t pread(void* data, size_t size, int64_t offset) override;
    size_t size() const override { return static_cast<size_t>(file_.size()); }
    void flush() const override {}

    const std::exception_ptr& trouble() const { return trouble_; }

  private:
    SafeFile& file_;
    std::exception_ptr trouble_;
};

// An image being written: open, rows from the top, commit or finish.
class ImageFile {
  public:
    // `format` as the library names it: "openexr", "png". All functions throw FileError.
    ImageFile(const std::string& path, const std::string& format, OIIO::ImageSpec spec);

    // Rows [first, last), `data` interleaved by channel.
    void write_rows(int first, int last, OIIO::TypeDesc type, const void* data);
    void commit();
    // The whole file, not renamed to its path yet. The image takes no more calls.
    std::unique_ptr<SafeFile> finish();

  private:
    [[noreturn]] void fail() const;

    std::unique_ptr<SafeFile> file_;
    SafeFileProxy proxy_;
    std::unique_ptr<OIIO::ImageOutput> output_;
};

}  // namespace dapple
