// The page of all keys, scenes/KEYS.md, against what the program reads.
#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <set>
#include <sstream>

#include "scene/written_set.h"
#include "set/read_gear.h"
#include "set/tables/table_reader.h"
#include "set/variants/read_variants.h"

using namespace dapple;

namespace {

// One row of a table of the page, its cells trimmed.
struct KeyRow {
    std::string key;  // "fixture.gel.stops", "stand.count", "variants.set", "kit.count"
    std::vector<std::string> cells;
};

std::string trimmed(const std::string& text) {
    const size_t first = text.find_first_not_of(' ');
    if (first == std::string::npos) return "";
    return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

// The table that a heading is about: "## [[fixture]]" is "fixture."; the top of the file is "".
std::string prefix_of(const std::string& heading) {
    if (heading == "Top of the file") return "";
    if (heading == "Kit files") return "kit.";
    if (heading == "A file of variants") return "variants.";
    const size_t first = heading.find_first_not_of('[');
    return heading.substr(first, heading.find(']') - first) + ".";
}

std::vector<KeyRow> page_rows() {
    std::ifstream file(std::string(DAPPLE_SOURCE_DIR) + "/scenes/KEYS.md");
    std::vector<KeyRow> rows;
    std::string prefix;
    for (std::string line; std::getline(file, line);) {
        if (line.starts_with("## ")) prefix = prefix_of(line.substr(3));
        if (!line.starts_with("| `")) continue;
        KeyRow row;
        std::istringstream cells(line.substr(1));
        for (std::string cell; std::getline(cells, cell, '|');) row.cells.push_back(trimmed(cell));
        row.key = prefix + row.cells[0].substr(1, row.cells[0].size() - 2);
        rows.push_back(row);
    }
    return rows;
}

std::vector<std::string> keys_that_are_read() {
    std::vector<std::string> keys = all_set_keys();
    for (const std::string& key : all_gear_keys()) {
        if (key.find('.') != std::string::npos) keys.push_back(key);
    }
    for (const std::string& key : all_variants_keys()) keys.push_back("variants." + key);
    for (const char* key : kKitKeys) keys.push_back(std::string("kit.") + key);
    keys.emplace_back("kit.kit");
    std::sort(keys.begin(), keys.end());
    return keys;
}

// The words in backticks of a cell.
std::set<std::string> words_of(const std::string& cell) {
    std::set<std::string> words;
    for (size_t at = cell.find('`'); at != std::string::npos;) {
        const size_t end = cell.find('`', at + 1);
        words.insert(cell.substr(at + 1, end - at - 1));
        at = cell.find('`', end + 1);
    }
    return words;
}

// The words that the message about a wrong one lists.
std::set<std::string> words_in(const std::string& message) {
    const std::string before = "must be one of ";
    const size_t at = message.find(before);
    if (at == std::string::npos) return {};
    std::string list = message.substr(at + before.size());
    list = list.substr(0, list.find(';'));
    std::set<std::string> words;
    std::istringstream stream(list);
    for (std::string word; std::getline(stream, word, ',');) words.insert(trimmed(word));
    return words;
}

}  // namespace

TEST_CASE("the page of keys has every key that is read, once, and no other") {
    std::vector<std::string> on_page;
    for (const KeyRow& row : page_rows()) on_page.push_back(row.key);
    std::sort(on_page.begin(), on_page.end());
    const std::vector<std::string> read = keys_that_are_read();
    std::vector<std::string> missing;
    std::vector<std::string> made_up;
    std::set_difference(
        read.begin(), read.end(), on_page.begin(), on_page.end(), std::back_inserter(missing));
    std::set_difference(
        on_page.begin(), on_page.end(), read.begin(), read.end(), std::back_inserter(made_up));
    for (const std::string& key : missing) FAIL_CHECK("not on the page: " << key);
    for (const std::string& key : made_up) FAIL_CHECK("not read: " << key);
    CHECK(on_page.size() > 150);
}

TEST_CASE("every row of the page says the default, what is allowed and what the key is") {
    for (const KeyRow& row : page_rows()) {
        CAPTURE(row.key);
        REQUIRE(row.cells.size() == 5);
        CHECK_FALSE(row.cells[2].empty());
        CHECK_FALSE(row.cells[3].empty());
        CHECK_FALSE(row.cells[4].empty());
        // The end of a key is its unit.
        const std::string& key = row.cells[0];
        const auto ends = [&](const std::string& end) { return key.ends_with(end + "`"); };
        if (ends("_mm")) CHECK(row.cells[1] == "mm");
        if (ends("_m")) CHECK(row.cells[1] == "m");
        if (ends("_deg")) CHECK(row.cells[1] == "°");
        if (ends("_lm")) CHECK(row.cells[1] == "lm");
        if (ends("_k")) CHECK(row.cells[1] == "K");
    }
}

TEST_CASE("the words that the page allows are those that the program allows") {
    const std::string at = "position = [0.5, 1, 0]\n";
    const std::string aimed = at + "aim = [0, 1.2, 0.9]\n";
    const std::string on_wall = "centre_m = [0, 1]\nsize_m = [0.5, 0.5]\n";
    const struct {
        std::string key, table;  // its other keys
    } keys[] = {
        {"fixture.form", "name = \"b\"\n" + aimed + "beam_angle_deg = 9\noutput_lm = 1\n"},
        {"fixture.source", "name = \"b\"\n" + aimed + "beam_angle_deg = 9\noutput_lm = 1\n"},
        {"fixture.supply", "name = \"b\"\n" + aimed + "beam_angle_deg = 9\noutput_lm = 1\n"},
        {"fixture.focus", "name = \"b\"\n" + aimed + "beam_range_deg = [9, 20]\noutput_lm = 1\n"},
        {"glass.form", at},
        {"glass.surface", at + "form = \"jar\"\n"},
        {"glass.glass", at + "form = \"jar\"\n"},
        {"glass.tint", at + "form = \"jar\"\n"},
        {"glass.frosted", at + "form = \"jar\"\n"},
        {"diffuser.cloth", aimed + "size_m = [1, 1]\n"},
        {"bounce.finish", aimed + "size_m = [1, 1]\n"},
        {"stand_in.pose", "position = [0, 0, -1]\n"},
        {"stand_in.skin", "position = [0, 0, -1]\n"},
        {"stand_in.hair", "position = [0, 0, -1]\n"},
        {"window.wall", on_wall + "luminance_cd_m2 = 5\n"},
        {"door.wall", on_wall},
        {"surface.tint", "name = \"floor\"\nglass = \"water\"\n"},
        {"surface.glass", "name = \"floor\"\n"},
        {"meter.receptor", "position = [0, 1, 0]\nfacing = [0, 1, 1]\n"}};
    WrittenSet set;
    const std::vector<KeyRow> rows = page_rows();
    for (const auto& [key, table] : keys) {
        CAPTURE(key);
        const size_t dot = key.find('.');
        set.build(kRoom + kCamera + kFixture + "[[" + key.substr(0, dot) + "]]\n" + table +
                  key.substr(dot + 1) + " = \"zzz\"\n");
        REQUIRE_FALSE(set.lines().empty());
        const std::set<std::string> allowed = words_in(set.lines().front());
        CHECK_FALSE(allowed.empty());
        const auto row = std::find_if(
            rows.begin(), rows.end(), [&, name = key](const KeyRow& r) { return r.key == name; });
        REQUIRE(row != rows.end());
        CHECK(words_of(row->cells[3]) == allowed);
    }
}
