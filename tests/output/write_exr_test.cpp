#include "output/write_exr.h"

#include <OpenImageIO/imageio.h>
#include <doctest/doctest.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <map>

#include "base/parallel.h"
#include "base/problems.h"
#include "develop/develop.h"
#include "develop/exposure.h"
#include "output/output_fixtures.h"

using namespace dapple;

namespace {

struct ReadBack {
    OIIO::ImageSpec spec;
    std::map<std::string, std::vector<float>> channels;
};

ReadBack read_raw(const std::string& path) {
    auto input = OIIO::ImageInput::open(path);
    REQUIRE(input);
    ReadBack result;
    result.spec = input->spec();
    const auto n = static_cast<size_t>(result.spec.nchannels);
    const size_t pixels =
        static_cast<size_t>(result.spec.width) * static_cast<size_t>(result.spec.height);
    std::vector<float> all(n * pixels);
    REQUIRE(input->read_image(0, 0, 0, static_cast<int>(n), OIIO::TypeDesc::FLOAT, all.data()));
    for (size_t c = 0; c < n; ++c) {
        auto& channel = result.channels[result.spec.channelnames[c]];
        for (size_t i = 0; i < pixels; ++i) channel.push_back(all[i * n + c]);
    }
    return result;
}

bool same_bits(float a, float b) {
    return std::bit_cast<uint32_t>(a) == std::bit_cast<uint32_t>(b);
}

void check_rgb(const ReadBack& file, const std::string& prefix, const std::vector<Rgb>& expected) {
    CAPTURE(prefix);
    const char* const names[3] = {"R", "G", "B"};
    for (int c = 0; c < 3; ++c) {
        REQUIRE(file.channels.count(prefix + names[c]) == 1);
        const auto& channel = file.channels.at(prefix + names[c]);
        REQUIRE(channel.size() == expected.size());
        bool same = true;
        for (size_t i = 0; i < expected.size(); ++i) {
            same = same && same_bits(channel[i], expected[i][c]);
        }
        CHECK(same);
    }
}

}  // namespace

TEST_CASE("every channel of the EXR reads back to the bit") {
    const TemporaryFolder folder;
    const Scene scene = boat_scene();
    const Film film = boat_film();
    const FirstHits hits = boat_hits();
    write_exr(folder / "boat.exr", boat_record());
    const ReadBack file = read_raw(folder / "boat.exr");
    CHECK(file.spec.width == kTestWidth);
    CHECK(file.spec.height == kTestHeight);
    CHECK(file.spec.format == OIIO::TypeDesc::FLOAT);
    CHECK(file.channels.size() == 3 + 3 * 3 + 2 + 3 + 3 + 3);

    check_rgb(file, "", develop_linear(film, scene.camera).pixels);
    check_rgb(file, "net.warm.", develop_linear(film, scene.camera, 0).pixels);
    check_rgb(file, "net.cool.", develop_linear(film, scene.camera, 1).pixels);
    check_rgb(file, "key_light.", develop_linear(film, scene.camera, 2).pixels);
    check_rgb(file, "albedo.", hits.albedo);
    bool same = true;
    for (int i = 0; i < film.pixels(); ++i) {
        const auto at = static_cast<size_t>(i);
        const auto value = [&](const char* name) { return file.channels.at(name)[at]; };
        same = same && same_bits(value("luminance.Y"), static_cast<float>(film.resolve(i).y)) &&
               same_bits(value("luminance.stderr"), static_cast<float>(film.luminance_stderr(i))) &&
               same_bits(value("normal.X"), hits.normal[at].x) &&
               same_bits(value("normal.Y"), hits.normal[at].y) &&
               same_bits(value("normal.Z"), hits.normal[at].z) &&
               same_bits(value("depth.Z"), hits.depth[at]) &&
               same_bits(value("surface.id"), static_cast<float>(hits.surface[at]));
    }
    CHECK(same);
}

TEST_CASE("the EXR states its colours, its exposure and its lens") {
    const TemporaryFolder folder;
    const Scene scene = boat_scene();
    RunReport run;
    run.passes = 2;
    write_exr(folder / "boat.exr", boat_record(boat_hits(), run));
    const ReadBack file = read_raw(folder / "boat.exr");
    const OIIO::ImageSpec& spec = file.spec;
    CHECK(spec.get_string_attribute("compression") == "zip");
    CHECK(spec.tile_width == 0);  // scanlines
    float c[8] = {};
    REQUIRE(spec.getattribute("chromaticities", OIIO::TypeDesc(OIIO::TypeDesc::FLOAT, 8), c));
    const float rec709[8] = {0.64F, 0.33F, 0.30F, 0.60F, 0.15F, 0.06F, 0.3127F, 0.3290F};
    CHECK(std::equal(c, c + 8, rec709));
    CHECK(spec.get_float_attribute("whiteLuminance") ==
          static_cast<float>(white_luminance(scene.camera)));
    // The library reads these standard attributes under its own names.
    CHECK(spec.get_float_attribute("ExposureTime") == scene.camera.shutter);
    CHECK(spec.get_float_attribute("FNumber") == scene.camera.f_number);
    CHECK(spec.get_float_attribute("isoSpeed") == scene.camera.iso);
    CHECK(spec.get_float_attribute("focus") == 5);
    CHECK(spec.get_float_attribute("dapple:whiteKelvin") == 4300);
    CHECK(spec.get_int_attribute("dapple:passes") == 2);
    CHECK(spec.get_string_attribute("dapple:surfaces") == "0 planks\n1 slipway\n");
    CHECK(spec.get_string_attribute("dapple:fixtures") ==
          "net.warm\tnet.warm\nnet.cool\tnet.cool\nkey_light\tkey light\n");
}

TEST_CASE("the bytes of the EXR have the standard names of attributes") {
    const TemporaryFolder folder;
    write_exr(folder / "boat.exr", boat_record());
    const std::string header = get_file(folder / "boat.exr").substr(0, 8192);
    for (const std::string name :
         {"chromaticities", "whiteLuminance", "expTime", "aperture", "isoSpeed", "focus"}) {
        CAPTURE(name);
        // Attribute name, type name, as the file format stores them.
        const std::string type = name == "chromaticities" ? "chromaticities" : "float";
        CHECK(header.find(name + '\0' + type + '\0') != std::string::npos);
    }
}

TEST_CASE("without first hits their channels are left out") {
    const TemporaryFolder folder;
    write_exr(folder / "boat.exr", boat_record({}));
    const ReadBack file = read_raw(folder / "boat.exr");
    CHECK(file.channels.size() == 3 + 3 * 3 + 2);
    CHECK(file.channels.count("depth.Z") == 0);
}

TEST_CASE("the EXR does not depend on the number of threads") {
    const TemporaryFolder folder;
    std::vector<ReadBack> files;
    for (const int threads : {1, 2}) {
        const ThreadLimit limit(threads);
        const std::string path = folder / (std::to_string(threads) + ".exr");
        write_exr(path, boat_record());
        files.push_back(read_raw(path));  // the header holds the time of writing
    }
    CHECK(files[0].channels == files[1].channels);
}

TEST_CASE("layers have safe and different names, whatever the fixtures are called") {
    Scene scene;
    std::vector<LightGroup> groups;
    const auto add = [&](const std::string& fixture, const std::vector<std::string>& channels) {
        scene.fixtures.emplace_back();
        scene.fixtures.back().name = fixture;
        const int index = static_cast<int>(scene.fixtures.size()) - 1;
        for (const std::string& channel : channels) {
            groups.push_back(tungsten_group(fixture + channel, index, 3000));
        }
    };
    add("net.1", {".warm", ".cool"});
    add("net 1", {""});
    add("Öl/lamp", {""});
    add("depth", {""});
    add("net.1.warm", {""});
    const Film film(1, 1, groups, 1.0);
    CHECK(layer_names(film, scene) ==
          std::vector<std::string>{
              "net_1.warm", "net_1.cool", "net_1_2", "_l_lamp", "depth_2", "net_1_warm"});
}

TEST_CASE("an EXR that cannot be finished leaves the old one and is reported in one line") {
    const TemporaryFolder folder;
    put_file(folder / "boat.exr", "old");
    std::string message;
    {
        const FileSizeLimit limit(8192);
        message = message_of([&] { write_exr(folder / "boat.exr", boat_record()); });
    }
    CHECK(message == (folder / "boat.exr") + ": cannot be written: File too large");
    CHECK(get_file(folder / "boat.exr") == "old");
    CHECK(folder.entries() == 1);
    std::filesystem::create_directory(folder / "taken.exr");
    CHECK_THROWS_AS(write_exr(folder / "taken.exr", boat_record()), FileError);
    CHECK_THROWS_AS(write_exr(folder / "boat.exr/a.exr", boat_record()), FileError);
}

TEST_CASE("the image library's own tool lists the channels") {
    if (std::system("command -v iinfo >/dev/null 2>&1") != 0) return;  // openimageio-tools
    const TemporaryFolder folder;
    write_exr(folder / "boat.exr", boat_record());
    REQUIRE(std::system(("iinfo -v " + (folder / "boat.exr") + " >" + (folder / "info")).c_str()) ==
            0);
    const std::string info = get_file(folder / "info");
    CHECK(info.find("37 x   70, 23 channel, float openexr") != std::string::npos);
    for (const char* name : {"net.warm.R", "key_light.B", "luminance.stderr", "surface.id"}) {
        CAPTURE(name);
        CHECK(info.find(name) != std::string::npos);
    }
}
