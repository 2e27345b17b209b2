// A folder that is removed after the test, a file size limit in place of a full disk, and a small
// scene with its film.
#pragma once

#include <sys/resource.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "develop/film_record.h"
#include "develop/lit_film.h"
#include "film/first_hits.h"
#include "scene/scene.h"

namespace dapple {

class TemporaryFolder {
  public:
    TemporaryFolder() {
        std::string name = (std::filesystem::temp_directory_path() / "dapple-test-XXXXXX").string();
        path_ = ::mkdtemp(name.data());
    }
    ~TemporaryFolder() { std::filesystem::remove_all(path_); }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;

    std::string operator/(const std::string& name) const { return (path_ / name).string(); }
    std::string path() const { return path_.string(); }
    size_t entries() const {
        return static_cast<size_t>(std::distance(std::filesystem::directory_iterator(path_), {}));
    }

  private:
    std::filesystem::path path_;
};

// Limits the size of every file of this process while it lives. Writing more fails with EFBIG, as
// it fails with ENOSPC on a full disk.
class FileSizeLimit {
  public:
    explicit FileSizeLimit(rlim_t bytes) : old_handler_(std::signal(SIGXFSZ, SIG_IGN)) {
        ::getrlimit(RLIMIT_FSIZE, &old_);
        rlimit limit = old_;
        limit.rlim_cur = bytes;
        ::setrlimit(RLIMIT_FSIZE, &limit);
    }
    ~FileSizeLimit() {
        ::setrlimit(RLIMIT_FSIZE, &old_);
        std::signal(SIGXFSZ, old_handler_);
    }
    FileSizeLimit(const FileSizeLimit&) = delete;
    FileSizeLimit& operator=(const FileSizeLimit&) = delete;

  private:
    void (*old_handler_)(int);
    rlimit old_{};
};

inline void put_file(const std::string& path, const std::string& content) {
    std::ofstream(path, std::ios::binary) << content;
}

inline std::string get_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

// The message that `act` throws; "" for none.
template <typename Act>
std::string message_of(const Act& act) {
    try {
        act();
    } catch (const std::exception& e) {
        return e.what();
    }
    return "";
}

inline constexpr int kTestWidth = 37;  // odd sizes, more than one band of rows
inline constexpr int kTestHeight = 70;

inline Scene boat_scene() {
    Scene scene;
    scene.title = "Boat shed";
    scene.camera.width = kTestWidth;
    scene.camera.height = kTestHeight;
    scene.camera.focus_distance = 5;
    scene.camera.white_k = 4300;
    for (const char* name : {"net", "key light"}) {
        scene.fixtures.emplace_back();
        scene.fixtures.back().name = name;
    }
    for (const char* name : {"planks", "slipway"}) {
        scene.materials.emplace_back();
        scene.materials.back().name = name;
    }
    return scene;
}

inline Film boat_film(int passes = 2) {
    PixelSet wall{"wall", {}};
    for (int i = 0; i < kTestWidth * 32; ++i) wall.pixels.push_back(i);
    return lit_film(
        kTestWidth,
        kTestHeight,
        {tungsten_group("net.warm", 0, 2700),
         daylight_group("net.cool", 0, 6500),
         tungsten_group("key light", 1, 3200)},
        passes,
        [](int pixel, int group, int pass) { return 0.01 * pixel + 3 * group + 0.5 * pass; },
        {wall});
}

inline FirstHits boat_hits() {
    FirstHits hits{kTestWidth, kTestHeight, {}, {}, {}, {}, {}};
    for (int i = 0; i < kTestWidth * kTestHeight; ++i) {
        const float x = static_cast<float>(i) / 1000;
        const bool nothing = i % 10 == 0;
        hits.albedo.emplace_back(x, 0.5F * x, 0.25F);
        hits.normal.emplace_back(0.6F, -0.8F, 0.0F);
        hits.depth.push_back(nothing ? kInfinity : 2 + x);
        hits.surface.push_back(nothing ? -1 : i % 2);
        hits.footprint_m.push_back(nothing ? 0 : 0.01F);
    }
    return hits;
}

inline FilmRecord boat_record(const FirstHits& hits = boat_hits(), const RunReport& run = {}) {
    return make_film_record({.scene = boat_scene(),
                             .film = boat_film(),
                             .first_hits = hits,
                             .meters = nullptr,
                             .seen = nullptr,
                             .clean = nullptr,
                             .run = run});
}

}  // namespace dapple
