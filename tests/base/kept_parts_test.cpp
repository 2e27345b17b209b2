#include "base/kept_parts.h"

#include <doctest/doctest.h>

#include <atomic>
#include <filesystem>
#include <fstream>
#include <thread>

#include "base/parallel.h"

using namespace dapple;

namespace {

// Makes a part of some bytes, and counts how often.
struct Maker {
    int made = 0;
    std::string operator()(const std::string& key, size_t bytes = 10) {
        return *kept_or_made<std::string>(
            key,
            [&] {
                ++made;
                return "made of " + key;
            },
            [&](const std::string&) { return bytes; });
    }
};

}  // namespace

TEST_CASE("a part is made once while parts are kept, and each time otherwise") {
    Maker make;
    make("a");
    CHECK(make("a") == "made of a");
    CHECK(make.made == 2);
    {
        const KeepParts keep(100);
        CHECK(make("a") == "made of a");
        CHECK(make("b") == "made of b");
        CHECK(make("a") == "made of a");
        CHECK(make.made == 4);
    }
    make("a");
    CHECK(make.made == 5);
}

TEST_CASE("parts beyond the limit are not kept, and those kept before stay") {
    const KeepParts keep(100);
    Maker make;
    make("first", 60);
    make("large", 50);
    make("small", 40);
    CHECK(make.made == 3);
    make("first", 60);
    make("small", 40);
    CHECK(make.made == 3);
    make("large", 50);
    CHECK(make.made == 4);
}

TEST_CASE("where old parts are dropped, those go that were not used for the longest time") {
    const KeepParts keep(100, AtLimit::kDropOld);
    Maker make;
    make("first", 40);
    make("second", 40);
    make("first", 40);
    make("third", 40);
    CHECK(make.made == 3);
    make("first", 40);
    make("third", 40);
    CHECK(make.made == 3);
    make("second", 40);
    CHECK(make.made == 4);
    make("too large", 101);
    make("second", 40);
    CHECK(make.made == 5);
}

TEST_CASE("each thread keeps parts of its own, and its loops use them") {
    Maker make;
    const KeepParts keep(100);
    make("a");
    std::thread other([&] {
        make("a");
        CHECK(make.made == 2);
        const KeepParts its_own(100);
        make("a");
        make("a");
        CHECK(make.made == 3);
    });
    other.join();
    std::atomic<int> found = 0;
    parallel_blocks(64, 1, [&](int64_t, int64_t) { found += find_part("a") ? 1 : 0; });
    CHECK(found == 64);
}

TEST_CASE("a file's key follows its content, not its name or age") {
    const std::string path =
        (std::filesystem::temp_directory_path() / "dapple_kept_parts_test").string();
    const auto key_of = [&](const std::string& text) {
        std::ofstream(path) << text;
        return content_key(path);
    };
    CHECK(key_of("paint") == "");  // nothing is kept
    const KeepParts keep(100);
    const std::string paint = key_of("paint");
    CHECK(paint != "");
    CHECK(key_of("point") != paint);
    CHECK(key_of("paint\n") != paint);
    CHECK(key_of("paint") == paint);
    std::filesystem::remove(path);
    CHECK(content_key(path) == "");
}
