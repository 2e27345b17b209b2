#include "output/write_frame.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>

#include "output/image_file.h"
#include "output/srgb_profile.h"

namespace dapple {

namespace {

constexpr int kSrgbOfExif = 1;      // Exif 2.32, tag ColorSpace
constexpr int kIsoSpeedOfExif = 3;  // the same, tag SensitivityType

template <class Code>
std::vector<Code> codes_of(const Picture& display, float most) {
    std::vector<Code> codes;
    codes.reserve(display.pixels.size() * 3);
    for (const Rgb& c : display.pixels) {
        for (int i = 0; i < 3; ++i) {
            codes.push_back(static_cast<Code>(std::lround(most * std::clamp(c[i], 0.0F, 1.0F))));
        }
    }
    return codes;
}

std::string number_text(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%g", value);
    return text;
}

void add_camera(const Camera& camera, FrameFormat format, OIIO::ImageSpec& spec) {
    const float focal_length_mm = 1000 * camera.focal_length;
    if (format == FrameFormat::kPng) {  // the library writes no Exif into PNGs, but it writes texts
        const auto text = [&](const char* name, float value) {
            spec.attribute(name, number_text(static_cast<double>(value)));
        };
        text("ExposureTime", camera.shutter);
        text("FNumber", camera.f_number);
        text("ISOSpeed", camera.iso);
        text("FocalLength", focal_length_mm);
        return;
    }
    const int iso = static_cast<int>(std::lround(camera.iso));
    spec.attribute("ExposureTime", camera.shutter);
    spec.attribute("FNumber", camera.f_number);
    if (format == FrameFormat::kJpeg) spec.attribute("Exif:PhotographicSensitivity", iso);
    // The library leaves that tag out of TIFFs.
    if (format == FrameFormat::kTiff) spec.attribute("Exif:ISOSpeed", iso);
    spec.attribute("Exif:SensitivityType", kIsoSpeedOfExif);
    spec.attribute("Exif:FocalLength", focal_length_mm);
    spec.attribute("Exif:ColorSpace", kSrgbOfExif);
}

OIIO::ImageSpec make_frame_spec(const Picture& display,
                                FrameFormat format,
                                const FrameNotes& notes) {
    const bool is_tiff = format == FrameFormat::kTiff;
    OIIO::ImageSpec spec(
        display.width, display.height, 3, is_tiff ? OIIO::TypeDesc::UINT16 : OIIO::TypeDesc::UINT8);
    const std::vector<uint8_t> profile = srgb_profile();
    spec.attribute("oiio:ColorSpace", "sRGB");
    spec.attribute("ICCProfile",
                   OIIO::TypeDesc(OIIO::TypeDesc::UINT8, static_cast<int>(profile.size())),
                   profile.data());
    spec.attribute("Software", "dapple");
    if (!notes.description.empty()) spec.attribute("ImageDescription", notes.description);
    if (format == FrameFormat::kJpeg) {
        spec.attribute("compression", "jpeg:95");
        spec.attribute("jpeg:subsampling", "4:4:4");
    } else if (is_tiff) {
        spec.attribute("compression", "zip");
    }
    if (notes.camera) add_camera(*notes.camera, format, spec);
    return spec;
}

}  // namespace

std::unique_ptr<SafeFile> write_frame(const std::string& path,
                                      const Picture& display,
                                      FrameFormat format,
                                      const FrameNotes& notes) {
    const char* names[] = {"png", "jpeg", "tiff"};
    ImageFile file(path, names[static_cast<int>(format)], make_frame_spec(display, format, notes));
    if (format == FrameFormat::kTiff) {
        const std::vector<uint16_t> codes = codes_of<uint16_t>(display, 65535.0F);
        file.write_rows(0, display.height, OIIO::TypeDesc::UINT16, codes.data());
    } else {
        const std::vector<uint8_t> codes = codes_of<uint8_t>(display, 255.0F);
        file.write_rows(0, display.height, OIIO::TypeDesc::UINT8, codes.data());
    }
    return file.finish();
}

}  // namespace dapple
