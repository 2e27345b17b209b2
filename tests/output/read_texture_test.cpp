#include "output/read_texture.h"

#include <OpenImageIO/imageio.h>
#include <doctest/doctest.h>
#include <fcntl.h>

#include <cmath>

#include "base/problems.h"
#include "base/random.h"
#include "output/cut_off_jpeg.h"
#include "output/output_fixtures.h"

#ifdef __SANITIZE_ADDRESS__
#include <sanitizer/lsan_interface.h>
#endif

using namespace dapple;

namespace {

// The image library leaks a string of 31 bytes when it leaves its PNG reader at the end of a file
// that is cut off. That cannot be mended here.
struct LibraryMayLeak {
#ifdef __SANITIZE_ADDRESS__
    __lsan::ScopedDisabler disabler;
#endif
};

Texture read_file(const std::string& path) {
    return read_texture({path, nullptr, false});
}

void write_picture(const std::string& path,
                   int width,
                   int height,
                   int channels,
                   OIIO::TypeDesc type,
                   const void* data) {
    auto output = OIIO::ImageOutput::create(path);
    REQUIRE(output);
    OIIO::ImageSpec spec(width, height, channels, type);
    spec.attribute("oiio:UnassociatedAlpha", 1);
    REQUIRE(output->open(path, spec));
    REQUIRE(output->write_image(type, data));
    REQUIRE(output->close());
}

// What is printed on either stream while `act` runs.
template <typename Act>
std::string printed_by(const TemporaryFolder& folder, const Act& act) {
    std::fflush(nullptr);
    const std::string path = folder / "printed";
    const int file = ::open(path.c_str(), O_RDWR | O_CREAT | O_TRUNC, 0600);
    const int out = ::dup(1);
    const int err = ::dup(2);
    ::dup2(file, 1);
    ::dup2(file, 2);
    act();
    std::fflush(nullptr);
    ::dup2(out, 1);
    ::dup2(err, 2);
    for (const int descriptor : {file, out, err}) ::close(descriptor);
    return get_file(path);
}

std::string check_refused(const TemporaryFolder& folder, const std::string& path) {
    std::string message;
    const std::string printed =
        printed_by(folder, [&] { message = message_of([&] { read_file(path); }); });
    CHECK(printed.empty());
    CHECK(message.starts_with(path + ": "));
    CHECK(message.find('\n') == std::string::npos);
    return message;
}

}  // namespace

TEST_CASE("a colour PNG is read unchanged, rows from the top") {
    const TemporaryFolder folder;
    const uint8_t texels[] = {1, 2, 3, 40, 50, 60, 7, 8, 9, 100, 110, 120};
    write_picture(folder / "t.png", 2, 2, 3, OIIO::TypeDesc::UINT8, texels);
    const Texture t = read_file(folder / "t.png");
    CHECK(t.width == 2);
    CHECK(t.height == 2);
    CHECK(t.channels == 3);
    CHECK(t.srgb);
    CHECK(t.texels == std::vector<uint8_t>(std::begin(texels), std::end(texels)));
}

TEST_CASE("grey stays one channel, alpha is dropped and colours under it are kept") {
    const TemporaryFolder folder;
    const uint8_t grey[] = {10, 200};
    write_picture(folder / "g.png", 2, 1, 1, OIIO::TypeDesc::UINT8, grey);
    CHECK(read_file(folder / "g.png").channels == 1);
    CHECK(read_file(folder / "g.png").texels == std::vector<uint8_t>{10, 200});
    const uint8_t grey_alpha[] = {10, 0, 200, 255};
    write_picture(folder / "ga.png", 2, 1, 2, OIIO::TypeDesc::UINT8, grey_alpha);
    CHECK(read_file(folder / "ga.png").texels == std::vector<uint8_t>{10, 200});
    const uint8_t rgba[] = {10, 20, 30, 0, 40, 50, 60, 128};
    write_picture(folder / "rgba.png", 2, 1, 4, OIIO::TypeDesc::UINT8, rgba);
    CHECK(read_file(folder / "rgba.png").channels == 3);
    CHECK(read_file(folder / "rgba.png").texels == std::vector<uint8_t>{10, 20, 30, 40, 50, 60});
}

TEST_CASE("deeper pictures are converted to 8 bit, linear ones by the sRGB curve") {
    const TemporaryFolder folder;
    const uint16_t deep[] = {0, 257, 65535};
    write_picture(folder / "d.png", 1, 1, 3, OIIO::TypeDesc::UINT16, deep);
    CHECK(read_file(folder / "d.png").texels == std::vector<uint8_t>{0, 1, 255});
    const float linear[] = {0.18F, 1.0F, 7.0F};
    write_picture(folder / "l.exr", 1, 1, 3, OIIO::TypeDesc::FLOAT, linear);
    CHECK(read_file(folder / "l.exr").texels == std::vector<uint8_t>{118, 255, 255});
    CHECK(read_file(folder / "l.exr").srgb);
}

TEST_CASE("a JPEG is read") {
    const TemporaryFolder folder;
    const std::vector<uint8_t> texels(16 * 16 * 3, 128);
    write_picture(folder / "t.jpg", 16, 16, 3, OIIO::TypeDesc::UINT8, texels.data());
    const Texture t = read_file(folder / "t.jpg");
    CHECK(t.channels == 3);
    for (const uint8_t texel : t.texels) CHECK(std::abs(texel - 128) <= 1);  // lossy format
}

TEST_CASE(
    "missing, garbage and empty files are reported in one line each, and nothing is printed") {
    const TemporaryFolder folder;
    CHECK(check_refused(folder, folder / "none.png") ==
          (folder / "none.png") + ": cannot be read: No such file or directory");
    CHECK(check_refused(folder, folder.path()) == folder.path() + ": is a folder, not a picture");
    put_file(folder / "text.png", "this is no picture at all, however it is called");
    check_refused(folder, folder / "text.png");
    put_file(folder / "empty.jpg", "");
    check_refused(folder, folder / "empty.jpg");
    put_file(folder / "noext", "abc");
    check_refused(folder, folder / "noext");
}

TEST_CASE("cut off and scrambled pictures are refused or read, without a crash or a print") {
    const TemporaryFolder folder;
    RandomStream random(3, 0, 0, Purpose::kTest);
    std::vector<uint8_t> texels(64 * 64 * 3);
    for (uint8_t& t : texels) t = static_cast<uint8_t>(random.next_bits());
    for (const char* name : {"t.png", "t.jpg", "t.tif", "t.bmp", "t.tga"}) {
        CAPTURE(name);
        write_picture(folder / name, 64, 64, 3, OIIO::TypeDesc::UINT8, texels.data());
        const std::string whole = get_file(folder / name);
        const std::string path = folder / (std::string("bad-") + name);
        std::string printed;
        for (int trial = 0; trial < 20; ++trial) {
            std::string bad = whole.substr(0, random.next_bits() % whole.size());
            if (trial % 2 == 1) {
                bad = whole;
                for (int i = 0; i < 8; ++i) {
                    bad[random.next_bits() % std::min<size_t>(bad.size(), 200)] =
                        static_cast<char>(random.next_bits());
                }
            }
            put_file(path, bad);
            printed += printed_by(folder, [&] {
                [[maybe_unused]] const LibraryMayLeak library;
                const std::string message = message_of([&] { read_file(path); });
                CHECK(message.find('\n') == std::string::npos);
            });
        }
        CHECK(printed == "");
    }
}

TEST_CASE("a JPEG that is cut off anywhere is refused, which the image library would not tell") {
    const TemporaryFolder folder;
    std::vector<uint8_t> texels(48 * 48 * 3);
    for (size_t i = 0; i < texels.size(); ++i) texels[i] = static_cast<uint8_t>(i * i / 7);
    write_picture(folder / "whole.jpg", 48, 48, 3, OIIO::TypeDesc::UINT8, texels.data());
    CHECK(read_file(folder / "whole.jpg").width == 48);
    const std::string bytes = get_file(folder / "whole.jpg");
    CHECK_FALSE(is_cut_off_jpeg(bytes));
    CHECK_FALSE(is_cut_off_jpeg(bytes + "some bytes after its end"));
    for (size_t size = 3; size < bytes.size(); ++size) {
        CAPTURE(size);
        REQUIRE(is_cut_off_jpeg(std::string_view(bytes).substr(0, size)));
    }
    const std::string path = folder / "cut.jpg";
    put_file(path, bytes.substr(0, bytes.size() * 3 / 4));
    CHECK(check_refused(folder, path) == path + ": is cut off: its last part is missing");
}

TEST_CASE("a picture inside another file is read from its bytes, and its alpha alone if needed") {
    const TemporaryFolder folder;
    const uint8_t texels[] = {10, 20, 30, 40, 50, 60, 70, 80};
    write_picture(folder / "rgba.png", 2, 1, 4, OIIO::TypeDesc::UINT8, texels);
    const auto bytes = std::make_shared<const std::string>(get_file(folder / "rgba.png"));
    const Texture colours = read_texture({"scan.glb images[0]", bytes, false});
    CHECK(colours.name == "scan.glb images[0]");
    CHECK(colours.texels == std::vector<uint8_t>{10, 20, 30, 50, 60, 70});
    const Texture alpha = read_texture({"scan.glb images[0]", bytes, true});
    CHECK(alpha.channels == 1);
    CHECK(alpha.texels == std::vector<uint8_t>{40, 80});
    write_picture(folder / "rgb.jpg", 2, 1, 3, OIIO::TypeDesc::UINT8, texels);
    CHECK(read_texture({folder / "rgb.jpg", nullptr, true}).texels == std::vector<uint8_t>{255});
    const auto jpeg = std::make_shared<const std::string>(get_file(folder / "rgb.jpg"));
    CHECK(read_texture({"scan.glb images[1]", jpeg, false}).width == 2);
    const auto broken = std::make_shared<const std::string>(bytes->substr(0, bytes->size() / 2));
    [[maybe_unused]] const LibraryMayLeak library;
    CHECK(message_of([&] {
              read_texture({"scan.glb images[0]", broken, false});
          }).starts_with("scan.glb images[0]: is "));
}
