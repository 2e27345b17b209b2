#include "output/read_texture.h"

#include <OpenImageIO/imageio.h>
#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <new>

#include "base/large_memory.h"
#include "base/problems.h"
#include "spectrum/white_balance.h"

namespace dapple {

namespace {

constexpr int64_t kMostTexels = int64_t{1} << 28;  // 16384 × 16384; a larger picture is damaged

// Silences stderr of the whole process while it lives: the PNG library prints its errors itself,
// and there is no way to stop it from here. Pictures are read one by one before the work starts,
// so nothing else is silenced.
class QuietErrors {
  public:
    QuietErrors() : stderr_(::dup(STDERR_FILENO)) {
        std::fflush(stderr);
        const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
        if (nowhere < 0) return;
        ::dup2(nowhere, STDERR_FILENO);
        ::close(nowhere);
    }
    ~QuietErrors() {
        if (stderr_ < 0) return;  // stderr was closed before
        std::fflush(stderr);
        ::dup2(stderr_, STDERR_FILENO);
        ::close(stderr_);
    }
    QuietErrors(const QuietErrors&) = delete;
    QuietErrors& operator=(const QuietErrors&) = delete;

  private:
    int stderr_;
};

std::string first_line(const std::string& text) {
    return text.substr(0, text.find('\n'));
}

// Reports a folder or a missing file: the library would call both an unknown format.
void check_readable(const std::string& path) {
    if (std::filesystem::is_directory(path)) throw FileError(path, "is a folder, not a picture");
    errno = 0;
    if (!std::ifstream(path)) {
        throw FileError(path, std::string("cannot be read: ") + std::strerror(errno));
    }
}

std::unique_ptr<OIIO::ImageInput> open_picture(const std::string& path) {
    OIIO::ImageSpec wishes;
    wishes.attribute("oiio:UnassociatedAlpha", 1);
    auto input = OIIO::ImageInput::open(path, &wishes);
    if (!input) {
        const std::string reason = first_line(OIIO::geterror());
        throw FileError(path, "is not a picture that can be read: " + reason);
    }
    const OIIO::ImageSpec& spec = input->spec();
    if (spec.deep || spec.depth > 1 || spec.nchannels < 1 || spec.width < 1 || spec.height < 1 ||
        int64_t{spec.width} * spec.height > kMostTexels) {
        throw FileError(path, "is not a plain picture of at most 2^28 pixels");
    }
    return input;
}

bool holds_linear_light(const OIIO::ImageSpec& spec) {
    return spec.format.basetype == OIIO::TypeDesc::FLOAT ||
           spec.format.basetype == OIIO::TypeDesc::HALF ||
           spec.format.basetype == OIIO::TypeDesc::DOUBLE;
}

void read_rows(OIIO::ImageInput& input,
               const std::string& path,
               int channels,
               OIIO::TypeDesc type,
               void* data) {
    if (!input.read_image(0, 0, 0, channels, type, data)) {
        throw FileError(path, "is damaged: " + first_line(input.geterror()));
    }
}

uint8_t encode_texel(float linear) {
    const float code = srgb_encode(std::isnan(linear) ? 0.0F : std::clamp(linear, 0.0F, 1.0F));
    return static_cast<uint8_t>(std::lround(255.0F * code));
}

Texture read_open_texture(const std::string& path) {
    const auto input = open_picture(path);
    const OIIO::ImageSpec spec = input->spec();
    Texture texture;
    texture.name = path;
    texture.width = spec.width;
    texture.height = spec.height;
    texture.channels = spec.nchannels >= 3 ? 3 : 1;
    const size_t texels = static_cast<size_t>(spec.width) * static_cast<size_t>(spec.height) *
                          static_cast<size_t>(texture.channels);
    reserve_large(texture.texels, texels);
    texture.texels.resize(texels);
    if (holds_linear_light(spec)) {
        std::vector<float> linear(texture.texels.size());
        read_rows(*input, path, texture.channels, OIIO::TypeDesc::FLOAT, linear.data());
        std::transform(linear.begin(), linear.end(), texture.texels.begin(), encode_texel);
    } else {
        read_rows(*input, path, texture.channels, OIIO::TypeDesc::UINT8, texture.texels.data());
    }
    return texture;
}

}  // namespace

Texture read_texture(const std::string& path) {
    check_readable(path);
    const QuietErrors quiet;
    try {
        return read_open_texture(path);
    } catch (const std::bad_alloc&) {
        throw FileError(path, "is too large for the memory, or damaged");
    }
}

}  // namespace dapple
