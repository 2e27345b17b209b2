#include "output/image_file.h"

#include <unistd.h>

#include <utility>

#include "base/problems.h"

namespace dapple {

size_t SafeFileProxy::write(const void* data, size_t size) {
    const size_t written = pwrite(data, size, m_pos);
    m_pos += static_cast<int64_t>(written);
    return written;
}

size_t SafeFileProxy::pwrite(const void* data, size_t size, int64_t offset) {
    if (trouble_) return 0;
    try {
        file_.write_at(data, size, offset);
        return size;
    } catch (...) {
        trouble_ = std::current_exception();
        return 0;
    }
}

size_t SafeFileProxy::read(void* data, size_t size) {
    const size_t got = pread(data, size, m_pos);
    m_pos += static_cast<int64_t>(got);
    return got;
}

size_t SafeFileProxy::pread(void* data, size_t size, int64_t offset) {
    const ssize_t got = ::pread(file_.descriptor(), data, size, offset);
    return got > 0 ? static_cast<size_t>(got) : 0;
}

ImageFile::ImageFile(const std::string& path, const std::string& format, OIIO::ImageSpec spec)
    : file_(std::make_unique<SafeFile>(path)),
      proxy_(*file_),
      output_(OIIO::ImageOutput::create(format)) {
    if (!output_) throw FileError(path, "cannot be written: " + OIIO::geterror());
    // Of a TIFF with Exif the library reads its first directory again, but not through a proxy.
    const bool is_direct = format == "tiff";
    OIIO::Filesystem::IOProxy* proxy = &proxy_;
    if (!is_direct) spec.attribute("oiio:ioproxy", OIIO::TypeDesc::PTR, &proxy);
    if (!output_->open(is_direct ? file_->partial_path() : path, spec)) fail();
}

void ImageFile::write_rows(int first, int last, OIIO::TypeDesc type, const void* data) {
    if (!output_->write_scanlines(first, last, 0, type, data)) fail();
}

std::unique_ptr<SafeFile> ImageFile::finish() {
    const bool closed = output_->close();
    if (!closed || proxy_.trouble()) fail();
    return std::move(file_);
}

void ImageFile::commit() {
    finish()->commit();
}

void ImageFile::fail() const {
    // The system's reason comes first: the library only knows that fewer bytes were written.
    const std::string library = output_->geterror();
    if (proxy_.trouble()) std::rethrow_exception(proxy_.trouble());
    throw FileError(file_->path(), "cannot be written: " + library);
}

}  // namespace dapple
