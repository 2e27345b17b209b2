// Each mistake in a set file gives one clear line with file, line and column.
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

#include "set/full_example.h"
#include "set/read_set.h"

using namespace dapple;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    Problems problems;
    read_set_text(text, "set.toml", problems);
    std::vector<std::string> lines;
    for (const Problem& problem : problems.all()) lines.push_back(to_string(problem));
    return lines;
}

struct BadSet {
    const char* text;
    const char* line;
};

}  // namespace

TEST_CASE("each wrong key or type is reported in one line") {
    const BadSet bad_sets[] = {
        {"[camera]\nfocal_lenght_mm = 35\n",
         "set.toml:2:1: camera: focal_lenght_mm: unknown key; did you mean focal_length_mm?"},
        {"[[fixture]]\nname = \"net\"\nbeam_angel_deg = 5\n",
         "set.toml:3:1: fixture \"net\": beam_angel_deg: unknown key; did you mean "
         "beam_angle_deg?"},
        {"[[fixture]]\nname = \"a\"\n[[fixture]]\nzzzzzzzzzzzzzzzzzz = 5\n",
         "set.toml:4:1: fixture 2: zzzzzzzzzzzzzzzzzz: unknown key"},
        {"[camera]\nshutter_s = 1/60\n",
         "set.toml:2:14: Error while parsing decimal integer: expected digit, saw '/'; words, "
         "fractions and units need quotation marks, such as \"1/60\""},
        {"[camera]\nf_number = 1,4\n",
         "set.toml:2:13: Error while parsing key-value pair: expected a comment or whitespace, saw "
         "','; decimals have a point, such as 1.5"},
        {"[[fixture]]\nname = \u201ckey\u201d\n",
         "set.toml:2:8: Error while parsing value: could not determine value type; quotation marks "
         "must be straight ones, \"like these\", not those of a word processor"},
        {"[camera]\nposition = [-2,2, 2,5, 0,2]\n",
         "set.toml:2:12: camera: position: has 6 values; must be a list of 3 numbers; decimals "
         "have "
         "a point, such as 1.5, and a comma parts two numbers"},
        {"set = \"a.toml\"\n[vary]\n",
         "set.toml: is a file of variants; dapple overnight reads it"},
        {"[[fixtures]]\n", "set.toml:1:3: fixtures: unknown key; did you mean fixture?"},
        {"[[fixture]]\ngel = { shift_mird = 3 }\n",
         "set.toml:2:9: fixture 1: gel: shift_mird: unknown key; did you mean shift_mired?"},
        {"[fixture]\nname = \"net\"\n",
         "set.toml:1:1: fixture: is a table; must be a list of tables: write [[fixture]]"},
        {"camera = 5\n",
         "set.toml:1:10: camera: is a whole number; must be a table: camera = { "
         "... }"},
        {"title = 5\n", "set.toml:1:9: title: is a whole number; must be a text in quotes"},
        {"[camera]\niso = \"fast\"\n",
         "set.toml:2:7: camera: iso: is \"fast\", which is no number; write 800 or \"ISO 800\""},
        {"[camera]\niso = 1979-05-27\n",
         "set.toml:2:7: camera: iso: is a date or time; must be a number"},
        {"[camera]\nposition = 3\n",
         "set.toml:2:12: camera: position: is a whole number; must be a list of 3 numbers"},
        {"[camera]\naim = 3\n",
         "set.toml:2:7: camera: aim: is a whole number; must be a list of 3 numbers or the name of "
         "a thing"},
        {"[camera]\nposition = [1, 2]\n",
         "set.toml:2:12: camera: position: has 2 values; must be a list of 3 numbers"},
        {"[camera]\nposition = [1, 2, true]\n",
         "set.toml:2:19: camera: position: is true or false; must be a number"},
        {"[room]\nsize_m = \"8 x 12\"\n",
         "set.toml:2:10: room: size_m: is \"8 x 12\", which is not 3 lengths; write [8, 12, 4] or "
         "\"8 x 12 x 4 m\""},
        {"[camera]\nframe_px = \"960 x 640\"\n",
         "set.toml:2:12: camera: frame_px: is a text; must be a list of 2 numbers, written [960, "
         "640]"},
        {"[camera]\nframe_px = [960.5, 640]\n",
         "set.toml:2:13: camera: frame_px: is a number; must be a whole number"},
        {"[camera]\nposition = [1, nan, 3]\n",
         "set.toml:2:16: camera: position: is nan; must be a finite number"},
        {"[camera]\niso = inf\n",
         "set.toml:2:7: camera: iso: is infinite; must be a finite number"},
        {"[[surface]]\nname = \"a\"\nmetal = 1\n",
         "set.toml:3:9: surface \"a\": metal: is a whole number; must be true or false"},
        {"[[bounce]]\nreflectance = \"white\"\n",
         "set.toml:2:15: bounce 1: reflectance: is \"white\", which is no number; write 0.5, "
         "\"50%\" or \"-1 stop\""},
    };
    for (const BadSet& bad : bad_sets) {
        const std::vector<std::string> lines = lines_of(bad.text);
        CAPTURE(bad.text);
        REQUIRE(lines.size() == 1);
        CHECK(lines[0] == bad.line);
    }
}

TEST_CASE("text that is not TOML is reported in one line with the place of the mistake") {
    const BadSet bad_sets[] = {{"[camera\nposition = [0, 1, 2]\n", "set.toml:1:8: "},
                               {"[camera]\nposition = [0, 1, 2\n", "set.toml:2:21: "},
                               {"title = \"a\"\ntitle = \"b\"\n", "set.toml:2:"},
                               {"title = \"a\n", "set.toml:1:11: "},
                               {"title = \"\xff\xfe\"\n", "set.toml:1:"}};
    for (const BadSet& bad : bad_sets) {
        const std::vector<std::string> lines = lines_of(bad.text);
        CAPTURE(bad.text);
        REQUIRE(lines.size() == 1);
        CAPTURE(lines[0]);
        CHECK(lines[0].rfind(bad.line, 0) == 0);
        CHECK(lines[0].find('\n') == std::string::npos);
    }
}

TEST_CASE("all problems of a file are reported together") {
    CHECK(lines_of("titel = \"a\"\n[camera]\niso = true\nf_numbr = 4\n[[flag]]\nsize_m = 1\n")
              .size() == 4);
}

TEST_CASE("a line break in a name does not break the line") {
    const std::vector<std::string> lines = lines_of(
        "\"a\\nb\" = 5\n[[fixture]]\nname = \"x\\ny\"\nq"
        " = 1\n");
    REQUIRE(lines.size() == 2);
    for (const std::string& line : lines) CHECK(line.find('\n') == std::string::npos);
}

TEST_CASE("a file that cannot be read is an error that names it") {
    namespace fs = std::filesystem;
    Problems problems;
    CHECK_THROWS_WITH_AS(
        read_set("/no/such/set.toml", problems), "/no/such/set.toml: no such file", FileError);
    CHECK_THROWS_AS(read_set("/", problems), FileError);
    CHECK_THROWS_AS(read_set("/dev/zero", problems), FileError);
    const fs::path huge = fs::temp_directory_path() / "dapple_huge_set.toml";
    std::ofstream(huge).close();
    fs::resize_file(huge, 5 << 20);
    CHECK_THROWS_AS(read_set(huge.string(), problems), FileError);
    fs::remove(huge);
    CHECK(problems.empty());
}
