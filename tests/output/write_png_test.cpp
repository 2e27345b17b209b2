#include "output/write_png.h"

#include <OpenImageIO/imageio.h>
#include <doctest/doctest.h>

#include "base/problems.h"
#include "develop/exposure.h"
#include "output/output_fixtures.h"

using namespace dapple;

namespace {

std::vector<uint8_t> read_png(const std::string& path, OIIO::ImageSpec& spec) {
    auto input = OIIO::ImageInput::open(path);
    REQUIRE(input);
    spec = input->spec();
    std::vector<uint8_t> codes(static_cast<size_t>(spec.width) * static_cast<size_t>(spec.height) *
                               static_cast<size_t>(spec.nchannels));
    REQUIRE(input->read_image(0, 0, 0, spec.nchannels, OIIO::TypeDesc::UINT8, codes.data()));
    return codes;
}

}  // namespace

TEST_CASE("an 18 % card in the metered light is code 118 of the PNG") {
    const TemporaryFolder folder;
    Camera camera;
    camera.white_k = 5600;
    const double card = 0.18 * white_luminance(camera);
    const Film film =
        lit_film(5, 3, {daylight_group("key", 0, 5600)}, 1, [&](int, int, int) { return card; });
    write_png(folder / "card.png", develop_display(develop_linear(film, camera)));
    OIIO::ImageSpec spec;
    const std::vector<uint8_t> codes = read_png(folder / "card.png", spec);
    CHECK(spec.width == 5);
    CHECK(spec.height == 3);
    CHECK(spec.nchannels == 3);
    CHECK(spec.format == OIIO::TypeDesc::UINT8);
    for (const uint8_t code : codes) CHECK(code == 118);
}

TEST_CASE("the PNG says that it is sRGB and keeps rows and channels in place") {
    const TemporaryFolder folder;
    const Picture shown{2, 2, {Rgb(0, 0.2F, 1), Rgb(1, 0, 0), Rgb(0, 1, 0), Rgb(2, -1, 0.5F)}};
    write_png(folder / "a.png", shown);
    OIIO::ImageSpec spec;
    CHECK(read_png(folder / "a.png", spec) ==
          std::vector<uint8_t>{0, 51, 255, 255, 0, 0, 0, 255, 0, 255, 0, 128});
    CHECK(get_file(folder / "a.png").find("sRGB") != std::string::npos);  // the chunk itself
}

TEST_CASE("a PNG that cannot be finished leaves the old one and is reported in one line") {
    const TemporaryFolder folder;
    put_file(folder / "a.png", "old");
    // Noise does not compress, so the file is well over the limit.
    Picture shown{300, 300, {}};
    uint32_t bits = 1;
    for (int i = 0; i < 300 * 300; ++i) {
        bits = bits * 1664525U + 1013904223U;
        shown.pixels.emplace_back(static_cast<float>(bits >> 8) * 0x1p-24F);
    }
    std::string message;
    {
        const FileSizeLimit limit(8192);
        message = message_of([&] { write_png(folder / "a.png", shown); });
    }
    CHECK(message == (folder / "a.png") + ": cannot be written: File too large");
    CHECK(get_file(folder / "a.png") == "old");
    CHECK(folder.entries() == 1);
    CHECK_THROWS_AS(write_png(folder.path(), shown), FileError);
}
