#include "output/read_texture.h"

#include <OpenImageIO/filesystem.h>
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
#include <iterator>
#include <memory>
#include <new>
#include <optional>
#include <string_view>

#include "base/large_memory.h"
#include "base/problems.h"
#include "output/cut_off_jpeg.h"
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

std::string bytes_of_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

// A name with the ending by which the library finds the format of bytes in memory.
const char* name_by_content(std::string_view bytes) {
    if (bytes.starts_with("\x89PNG")) return "picture.png";
    if (bytes.starts_with("RIFF")) return "picture.webp";
    return "picture.jpg";
}

// A picture while it is read: the library needs its bytes, if they are in memory, until the end.
class OpenPicture {
  public:
    explicit OpenPicture(const PictureSource& picture) : path_(picture.path) {
        OIIO::ImageSpec wishes;
        wishes.attribute("oiio:UnassociatedAlpha", 1);
        if (picture.bytes) {
            memory_.emplace(picture.bytes->data(), picture.bytes->size());
            void* const memory = &*memory_;
            wishes.attribute("oiio:ioproxy", OIIO::TypeDesc::PTR, &memory);
            input_ = OIIO::ImageInput::open(name_by_content(*picture.bytes), &wishes, &*memory_);
        } else {
            input_ = OIIO::ImageInput::open(path_, &wishes);
        }
        if (!input_) {
            const std::string reason = first_line(OIIO::geterror());
            throw FileError(path_, "is not a picture that can be read: " + reason);
        }
        const OIIO::ImageSpec& spec = input_->spec();
        if (spec.deep || spec.depth > 1 || spec.nchannels < 1 || spec.width < 1 ||
            spec.height < 1 || int64_t{spec.width} * spec.height > kMostTexels) {
            throw FileError(path_, "is not a plain picture of at most 2^28 pixels");
        }
    }

    const OIIO::ImageSpec& spec() const { return input_->spec(); }

    // Channels from `first` to `end`, the last one not included.
    void read_rows(int first, int end, OIIO::TypeDesc type, void* data) {
        if (!input_->read_image(0, 0, first, end, type, data)) {
            throw FileError(path_, "is damaged: " + first_line(input_->geterror()));
        }
    }

  private:
    std::string path_;
    std::optional<OIIO::Filesystem::IOMemReader> memory_;
    std::unique_ptr<OIIO::ImageInput> input_;
};

bool holds_linear_light(const OIIO::ImageSpec& spec) {
    return spec.format.basetype == OIIO::TypeDesc::FLOAT ||
           spec.format.basetype == OIIO::TypeDesc::HALF ||
           spec.format.basetype == OIIO::TypeDesc::DOUBLE;
}

uint8_t encode_texel(float linear) {
    const float code = srgb_encode(std::isnan(linear) ? 0.0F : std::clamp(linear, 0.0F, 1.0F));
    return static_cast<uint8_t>(std::lround(255.0F * code));
}

Texture empty_texture(const std::string& name, int width, int height, int channels) {
    Texture texture;
    texture.name = name;
    texture.width = width;
    texture.height = height;
    texture.channels = channels;
    const size_t texels =
        static_cast<size_t>(width) * static_cast<size_t>(height) * static_cast<size_t>(channels);
    reserve_large(texture.texels, texels);
    texture.texels.resize(texels, 255);
    return texture;
}

Texture read_alpha(OpenPicture& picture, const std::string& path) {
    const OIIO::ImageSpec& spec = picture.spec();
    const int alpha = spec.alpha_channel;
    if (alpha < 0) return empty_texture(path, 1, 1, 1);
    Texture texture = empty_texture(path, spec.width, spec.height, 1);
    picture.read_rows(alpha, alpha + 1, OIIO::TypeDesc::UINT8, texture.texels.data());
    return texture;
}

Texture read_colours(OpenPicture& picture, const std::string& path) {
    const OIIO::ImageSpec& spec = picture.spec();
    Texture texture = empty_texture(path, spec.width, spec.height, spec.nchannels >= 3 ? 3 : 1);
    if (holds_linear_light(spec)) {
        std::vector<float> linear(texture.texels.size());
        picture.read_rows(0, texture.channels, OIIO::TypeDesc::FLOAT, linear.data());
        std::transform(linear.begin(), linear.end(), texture.texels.begin(), encode_texel);
    } else {
        picture.read_rows(0, texture.channels, OIIO::TypeDesc::UINT8, texture.texels.data());
    }
    return texture;
}

}  // namespace

Texture read_texture(const PictureSource& picture) {
    const std::string& path = picture.path;
    if (!picture.bytes) check_readable(path);
    const QuietErrors quiet;
    try {
        OpenPicture open(picture);
        if (is_cut_off_jpeg(picture.bytes ? *picture.bytes : bytes_of_file(path))) {
            throw FileError(path, "is cut off: its last part is missing");
        }
        return picture.alpha ? read_alpha(open, path) : read_colours(open, path);
    } catch (const std::bad_alloc&) {
        throw FileError(path, "is too large for the memory, or damaged");
    }
}

}  // namespace dapple
