#include "output/write_png.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "output/image_file.h"

namespace dapple {

namespace {

uint8_t code_of(float encoded) {
    return static_cast<uint8_t>(std::lround(255.0F * std::clamp(encoded, 0.0F, 1.0F)));
}

}  // namespace

void write_png(const std::string& path, const Picture& display) {
    OIIO::ImageSpec spec(display.width, display.height, 3, OIIO::TypeDesc::UINT8);
    spec.attribute("oiio:ColorSpace", "sRGB");
    spec.attribute("png:compressionLevel", 4);  // a third of the time of 6, a twentieth larger
    ImageFile file(path, "png", spec);
    std::vector<uint8_t> codes;
    codes.reserve(display.pixels.size() * 3);
    for (const Rgb& c : display.pixels) {
        for (int i = 0; i < 3; ++i) codes.push_back(code_of(c[i]));
    }
    file.write_rows(0, display.height, OIIO::TypeDesc::UINT8, codes.data());
    file.commit();
}

}  // namespace dapple
