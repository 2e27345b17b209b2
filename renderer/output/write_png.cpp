#include "output/write_png.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "base/parallel.h"
#include "base/problems.h"
#include "output/image_file.h"

namespace dapple {

namespace {

constexpr int kRowsAtOnce = 64;

uint8_t code_of(float encoded) {
    return static_cast<uint8_t>(std::lround(255.0F * std::clamp(encoded, 0.0F, 1.0F)));
}

OIIO::ImageSpec spec_of(const Picture& display) {
    OIIO::ImageSpec spec(display.width, display.height, 3, OIIO::TypeDesc::UINT8);
    spec.attribute("oiio:ColorSpace", "sRGB");
    spec.attribute("png:compressionLevel", 4);  // a third of the time of 6, a twentieth larger
    return spec;
}

std::vector<uint8_t> eight_bit_codes(const Picture& display) {
    std::vector<uint8_t> codes;
    codes.reserve(display.pixels.size() * 3);
    for (const Rgb& c : display.pixels) {
        for (int i = 0; i < 3; ++i) codes.push_back(code_of(c[i]));
    }
    return codes;
}

}  // namespace

void write_png(const std::string& path, const Picture& display) {
    ImageFile file(path, "png", spec_of(display));
    file.write_rows(0, display.height, OIIO::TypeDesc::UINT8, eight_bit_codes(display).data());
    file.commit();
}

std::string png_bytes(const Picture& display, PngPacking packing) {
    OIIO::ImageSpec spec = spec_of(display);
    if (packing == PngPacking::kNone) spec.attribute("png:compressionLevel", 0);
    OIIO::Filesystem::IOVecOutput bytes;
    OIIO::Filesystem::IOProxy* proxy = &bytes;
    spec.attribute("oiio:ioproxy", OIIO::TypeDesc::PTR, &proxy);
    const auto output = OIIO::ImageOutput::create("png");
    const std::vector<uint8_t> codes = eight_bit_codes(display);
    bool is_written = output && output->open("frame.png", spec);
    const auto* const stops = stops_of_this_thread();
    bool is_stopped = false;
    const std::vector<uint8_t> black(static_cast<size_t>(display.width) * 3 * kRowsAtOnce);
    for (int y = 0; is_written && y < display.height; y += kRowsAtOnce) {
        is_stopped = is_stopped || (stops && (*stops)());
        const int end = std::min(display.height, y + kRowsAtOnce);
        const auto row = static_cast<size_t>(y) * static_cast<size_t>(display.width) * 3;
        // The library complains of a file without its last rows, and black ones take no time.
        const uint8_t* rows = is_stopped ? black.data() : &codes[row];
        is_written = output->write_scanlines(y, end, 0, OIIO::TypeDesc::UINT8, rows);
    }
    if (!is_written || !output->close()) {
        throw FileError("frame.png", "cannot be made: " + OIIO::geterror());
    }
    if (is_stopped) throw StoppedWork();
    return {bytes.buffer().begin(), bytes.buffer().end()};
}

}  // namespace dapple
