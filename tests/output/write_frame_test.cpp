// Pictures to hand over: their values, their profile, and what they say of the camera.
#include "output/write_frame.h"

#include <OpenImageIO/imageio.h>
#include <doctest/doctest.h>
#include <lcms2.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "output/output_fixtures.h"
#include "output/srgb_profile.h"
#include "spectrum/white_balance.h"

using namespace dapple;

namespace {

constexpr int kWidth = 61;
constexpr int kHeight = 47;

// Smooth, as JPEG keeps it best.
Picture smooth_picture() {
    Picture linear{kWidth, kHeight, {}};
    for (int y = 0; y < kHeight; ++y) {
        for (int x = 0; x < kWidth; ++x) {
            const float u = static_cast<float>(x) / kWidth;
            const float v = static_cast<float>(y) / kHeight;
            linear.pixels.emplace_back(1.3F * u, 0.4F + 0.3F * v, 0.9F * (1 - u) * v);
        }
    }
    return develop_display(linear);
}

Camera test_camera() {
    Camera camera;
    camera.shutter = 1.0F / 60;
    camera.f_number = 2.8F;
    camera.iso = 640;
    camera.focal_length = 0.085F;
    return camera;
}

const std::string kDescription = "Boathouse: jar 7. Warm key.";

std::string write(const TemporaryFolder& folder, const std::string& name, FrameFormat format) {
    const Camera camera = test_camera();
    write_frame(folder / name, smooth_picture(), format, {kDescription, &camera})->commit();
    return folder / name;
}

struct ReadImage {
    OIIO::ImageSpec spec;
    std::vector<float> values;  // codes over their highest
};

ReadImage read_back(const std::string& path) {
    const auto input = OIIO::ImageInput::open(path);
    REQUIRE(input);
    ReadImage image{input->spec(), std::vector<float>(kWidth * kHeight * 3)};
    REQUIRE(image.spec.width == kWidth);
    REQUIRE(image.spec.height == kHeight);
    REQUIRE(image.spec.nchannels == 3);
    REQUIRE(input->read_image(0, 0, 0, 3, OIIO::TypeDesc::FLOAT, image.values.data()));
    return image;
}

// Differences from what develop gives: the largest, and the root of their mean square.
struct Errors {
    double largest = 0, rms = 0;
};
Errors errors_of(const ReadImage& image) {
    const Picture picture = smooth_picture();
    Errors errors;
    for (size_t i = 0; i < image.values.size(); ++i) {
        const auto wanted = static_cast<double>(picture.pixels[i / 3][static_cast<int>(i % 3)]);
        const double error = std::abs(static_cast<double>(image.values[i]) - wanted);
        errors.largest = std::max(errors.largest, error);
        errors.rms += error * error;
    }
    errors.rms = std::sqrt(errors.rms / static_cast<double>(image.values.size()));
    return errors;
}

struct ProfileEnd {
    void operator()(void* profile) const { cmsCloseProfile(profile); }
};
using Profile = std::unique_ptr<void, ProfileEnd>;

Profile profile_of(const OIIO::ImageSpec& spec) {
    const OIIO::ParamValue* found = spec.find_attribute("ICCProfile");
    REQUIRE(found);
    return Profile(
        cmsOpenProfileFromMem(found->data(), static_cast<cmsUInt32Number>(found->type().size())));
}

// ICC's own sRGB profile, sRGB_v4_ICC and its description: colorants adapted to D50, four digits.
void check_is_srgb(const Profile& profile) {
    REQUIRE(profile);
    CHECK(cmsGetColorSpace(profile.get()) == cmsSigRgbData);
    const cmsTagSignature colorants[] = {
        cmsSigRedColorantTag, cmsSigGreenColorantTag, cmsSigBlueColorantTag};
    const double published[3][3] = {
        {0.4361, 0.2225, 0.0139}, {0.3851, 0.7169, 0.0971}, {0.1431, 0.0606, 0.7141}};
    for (size_t c = 0; c < 3; ++c) {
        const auto* xyz = static_cast<const cmsCIEXYZ*>(cmsReadTag(profile.get(), colorants[c]));
        REQUIRE(xyz);
        CHECK(std::abs(xyz->X - published[c][0]) < 3e-4);  // primaries are rounded in two ways
        CHECK(std::abs(xyz->Y - published[c][1]) < 3e-4);
        CHECK(std::abs(xyz->Z - published[c][2]) < 3e-4);
    }
    const cmsTagSignature curves[] = {cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag};
    for (const cmsTagSignature curve : curves) {
        const auto* tone = static_cast<const cmsToneCurve*>(cmsReadTag(profile.get(), curve));
        REQUIRE(tone);
        for (const float code : {0.0F, 0.02F, 0.2F, 0.5F, 0.9F, 1.0F}) {
            // s15Fixed16 numbers and IEC's two roundings of the linear part's end.
            CHECK(std::abs(cmsEvalToneCurveFloat(tone, code) - srgb_decode(code)) < 5e-5F);
        }
    }
}

}  // namespace

TEST_CASE("the TIFF has 16 bits, the values of develop, and a profile that reads as sRGB") {
    const TemporaryFolder folder;
    const ReadImage image = read_back(write(folder, "frame.tif", FrameFormat::kTiff));
    CHECK(image.spec.format == OIIO::TypeDesc::UINT16);
    CHECK(errors_of(image).largest <= 0.5 / 65535 + 1e-7);
    check_is_srgb(profile_of(image.spec));
}

TEST_CASE("the PNG has the values of develop, and a profile that reads as sRGB") {
    const TemporaryFolder folder;
    const ReadImage image = read_back(write(folder, "frame.png", FrameFormat::kPng));
    CHECK(image.spec.format == OIIO::TypeDesc::UINT8);
    CHECK(errors_of(image).largest <= 0.5 / 255 + 1e-7);
    check_is_srgb(profile_of(image.spec));
}

TEST_CASE("the JPEG has the values of develop as near as JPEG has, and the profile") {
    const TemporaryFolder folder;
    const ReadImage image = read_back(write(folder, "frame.jpg", FrameFormat::kJpeg));
    // Measured: 0.95 codes at quality 95, of which 0.29 are rounding.
    CHECK(errors_of(image).rms <= 1.5 / 255);
    check_is_srgb(profile_of(image.spec));
}

TEST_CASE("the camera's settings and the description come back") {
    const TemporaryFolder folder;
    for (const auto& [name, format] :
         {std::pair("a.tif", FrameFormat::kTiff), std::pair("a.jpg", FrameFormat::kJpeg)}) {
        CAPTURE(name);
        const OIIO::ImageSpec spec = read_back(write(folder, name, format)).spec;
        CHECK(spec.get_float_attribute("ExposureTime") == doctest::Approx(1.0 / 60).epsilon(1e-3));
        CHECK(spec.get_float_attribute("FNumber") == doctest::Approx(2.8));
        CHECK(spec.get_float_attribute("Exif:FocalLength") == doctest::Approx(85));
        const bool is_tiff = format == FrameFormat::kTiff;
        CHECK(spec.get_int_attribute(is_tiff ? "Exif:ISOSpeed" : "Exif:PhotographicSensitivity") ==
              640);
        CHECK(spec.get_int_attribute("Exif:SensitivityType") == 3);
        CHECK(spec.get_string_attribute("ImageDescription") == kDescription);
    }
    const OIIO::ImageSpec spec = read_back(write(folder, "a.png", FrameFormat::kPng)).spec;
    CHECK(spec.get_string_attribute("ExposureTime") == "0.0166667");
    CHECK(spec.get_string_attribute("FNumber") == "2.8");
    CHECK(spec.get_string_attribute("ISOSpeed") == "640");
    CHECK(spec.get_string_attribute("FocalLength") == "85");
    CHECK(spec.get_string_attribute("ImageDescription") == kDescription);
}

TEST_CASE("until its commit a frame leaves the older file, and without one it leaves nothing") {
    const TemporaryFolder folder;
    for (const auto& [name, format] : {std::pair("a.tif", FrameFormat::kTiff),
                                       std::pair("a.jpg", FrameFormat::kJpeg),
                                       std::pair("a.png", FrameFormat::kPng)}) {
        put_file(folder / name, "older");
        write_frame(folder / name, smooth_picture(), format, {});
        CHECK(get_file(folder / name) == "older");
    }
    CHECK(folder.entries() == 3);
}

TEST_CASE("a full disk is an error for every format") {
    const TemporaryFolder folder;
    for (const auto& [name, format] : {std::pair("a.tif", FrameFormat::kTiff),
                                       std::pair("a.jpg", FrameFormat::kJpeg),
                                       std::pair("a.png", FrameFormat::kPng)}) {
        CAPTURE(name);
        put_file(folder / name, "older");
        std::string message;
        {
            const FileSizeLimit limit(1024);
            message = message_of(
                [&] { write_frame(folder / name, smooth_picture(), format, {})->commit(); });
        }
        CHECK(message.starts_with((folder / name) + ": cannot be written"));
        CHECK(message.find('\n') == std::string::npos);
        CHECK(get_file(folder / name) == "older");
    }
    CHECK(folder.entries() == 3);
}
