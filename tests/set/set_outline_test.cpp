#include "set/set_outline.h"

#include <doctest/doctest.h>
#include <toml++/toml.h>

#include <algorithm>
#include <filesystem>
#include <random>

#include "set/change_set.h"
#include "set/toml_text.h"

using namespace dapple;

namespace {

std::vector<std::string> all_sets() {
    std::vector<std::string> paths;
    for (const auto& entry :
         std::filesystem::recursive_directory_iterator(DAPPLE_SOURCE_DIR "/scenes")) {
        const bool is_kit = entry.path().parent_path().filename() == "kit";
        if (entry.path().extension() == ".toml" && !is_kit) paths.push_back(entry.path().string());
    }
    std::sort(paths.begin(), paths.end());
    return paths;
}

}  // namespace

TEST_CASE("the outline has every table in the file's order, with the address of each") {
    const std::vector<OutlineTable> tables = outline_of(
        "title = \"a\"\n[camera]\niso = 800\nf_number = 4.0\n"
        "[[glass]]\nname = \"jar 2.5\"\nposition = [1.0, 2.0, 3.0]\n"
        "[[fixture]]\ndimmer = 1\n[[flag]]\nname = \"wing\"\n[[flag]]\nname = \"wing\"\n");
    REQUIRE(tables.size() == 5);
    CHECK(tables[0].address == "camera");
    CHECK(tables[0].keys[0].key == "iso");
    CHECK(tables[0].keys[1].json == "4.0");
    CHECK(tables[1].kind == "glass");
    CHECK(tables[1].address == "glass.jar 2.5");
    CHECK(tables[1].line == 5);
    CHECK(tables[2].address == "fixture.#1");  // without a name
    CHECK(tables[3].address == "flag.#1");     // a name that stands twice
    CHECK(tables[4].address == "flag.#2");
}

TEST_CASE("a thousand changes of the sets of this project change no byte outside the value") {
    std::mt19937 random(20);
    const std::vector<std::string> paths = all_sets();
    REQUIRE(paths.size() > 20);
    int changes = 0;
    while (changes < 1000) {
        const std::string text = read_toml_text(paths[random() % paths.size()]);
        std::vector<OutlineTable> tables = outline_of(text);
        const OutlineTable& table = tables[random() % tables.size()];
        if (table.address.empty() || table.keys.empty()) continue;
        const OutlineKey& key = table.keys[random() % table.keys.size()];
        if (key.key == "name" || key.key.find('.') != std::string::npos) continue;
        // A value that no set has, so that the difference is the value.
        const std::string value = "\"<" + std::to_string(changes) + ">\"";
        Problems problems;
        const std::string after =
            change_set(text, {{table.address + "." + key.key, value, {}}}, problems);
        CAPTURE(table.address);
        CAPTURE(key.key);
        REQUIRE(problems.empty());
        // Before and behind the new value is what was there, and between them stood the old value.
        const size_t at = after.find(value);
        REQUIRE(at != std::string::npos);
        const std::string before = after.substr(0, at);
        const std::string behind = after.substr(at + value.size());
        REQUIRE(text.size() > before.size() + behind.size());
        CHECK(text.starts_with(before));
        CHECK(text.ends_with(behind));
        const std::string old =
            text.substr(before.size(), text.size() - before.size() - behind.size());
        const std::string there = outline_of("[a]\nb = " + old)[0].keys[0].json;
        CHECK(there == key.json);
        ++changes;
    }
}
