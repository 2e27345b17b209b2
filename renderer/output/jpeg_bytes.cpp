#include "output/jpeg_bytes.h"

#include <OpenImageIO/filesystem.h>
#include <OpenImageIO/imageio.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <stdexcept>
#include <vector>

namespace dapple {

std::string jpeg_bytes(const Picture& display, int quality) {
    std::vector<uint8_t> codes;
    codes.reserve(3 * display.pixels.size());
    for (const Rgb& c : display.pixels) {
        for (int i = 0; i < 3; ++i) {
            const float code = 255.0F * std::clamp(c[i], 0.0F, 1.0F);
            codes.push_back(static_cast<uint8_t>(std::lround(code)));
        }
    }
    OIIO::ImageSpec spec(display.width, display.height, 3, OIIO::TypeDesc::UINT8);
    spec.attribute("compression", "jpeg:" + std::to_string(quality));
    std::vector<unsigned char> bytes;
    OIIO::Filesystem::IOVecOutput memory(bytes);
    void* proxy = &memory;
    spec.attribute("oiio:ioproxy", OIIO::TypeDesc::PTR, static_cast<const void*>(&proxy));
    const auto output = OIIO::ImageOutput::create("memory.jpg");
    if (!output || !output->open("memory.jpg", spec) ||
        !output->write_image(OIIO::TypeDesc::UINT8, codes.data()) || !output->close()) {
        throw std::runtime_error("a picture cannot be packed: " +
                                 (output ? output->geterror() : OIIO::geterror()));
    }
    return {bytes.begin(), bytes.end()};
}

}  // namespace dapple
