#include "variants/choose_variants.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <set>

#include "set/variants/read_variants.h"

using namespace dapple;

namespace {

std::string variants_path() {
    return (std::filesystem::temp_directory_path() / "dapple_choose_variants_test.toml").string();
}

struct Chosen {
    VariantsFile file;
    std::vector<Variant> variants;
    std::string problem;  // the first
};

Chosen chosen(const std::string& text) {
    const std::string path = variants_path();
    std::ofstream(path) << text;
    Problems problems;
    Chosen result;
    result.file = read_variants(path, problems);
    if (problems.empty()) result.variants = choose_variants(result.file, problems);
    if (!problems.empty()) result.problem = to_string(problems.all().front());
    return result;
}

std::string values_of(const Variant& variant) {
    std::string all;
    for (const SetChange& change : variant.changes) all += change.value + " ";
    return all;
}

}  // namespace

TEST_CASE("a grid has every value with every other, the last key fastest") {
    const Chosen grid = chosen(
        "set = \"a.toml\"\nname = \"jar {glass.jar.turn_deg}°, {fixture.moon.cct_k} K\"\n"
        "[vary]\n\"glass.jar.turn_deg\" = [0, 7.5]\n"
        "\"fixture.moon.cct_k\" = { from = 3200, to = 6500, steps = 4 }\n");
    REQUIRE(grid.problem == "");
    REQUIRE(grid.variants.size() == 8);
    CHECK(values_of(grid.variants[0]) == "0 3200 ");
    CHECK(values_of(grid.variants[1]) == "0 4300 ");
    CHECK(values_of(grid.variants[7]) == "7.5 6500 ");
    CHECK(grid.variants[6].name == "jar 7.5°, 5400 K");
    CHECK(grid.variants[6].folder == "jar-7.5-5400-K");
}

TEST_CASE("a list takes the values side by side, and a swap is one knob") {
    const Chosen list = chosen(
        "set = \"a.toml\"\nchoose = \"list\"\n[vary]\n\"camera.iso\" = [100, 200]\n"
        "[[swap]]\n\"glass.jar\" = [{ kit = \"jar-ribbed\" }, { kit = \"ball\" }]\n"
        "\"flag.wing\" = [true, false]\n");
    REQUIRE(list.problem == "");
    REQUIRE(list.variants.size() == 2);
    CHECK(values_of(list.variants[1]) == "200 false { kit = \"ball\" } ");
    CHECK(list.variants[1].name == "camera iso 200, wing without, jar → ball");
}

TEST_CASE("without a template a variant is called by what varies") {
    const Chosen turned = chosen(
        "set = \"a.toml\"\n[vary]\n\"glass.jar.turn_deg\" = [0, 7.5]\n"
        "\"fixture.moon.dimmer\" = [0.5, 1]\n");
    REQUIRE(turned.variants.size() == 4);
    CHECK(turned.variants[2].name == "jar turn 7.5°, moon dimmer 0.5");
}

TEST_CASE("samples lie in their range, are spread and are the same every time") {
    const std::string text =
        "set = \"a.toml\"\nsamples = 64\n[vary]\n\"camera.iso\" = [100, 200]\n"
        "\"fixture.moon.dimmer\" = { from = 0.2, to = 0.6 }\n";
    const Chosen samples = chosen(text);
    REQUIRE(samples.problem == "");
    REQUIRE(samples.variants.size() == 64);
    // Each eighth of the range has its eighth of the samples, and each of the two values half: a
    // (0, m, s) net in base 2 (Niederreiter 1987).
    std::vector<int> eighths(8);
    int first_half = 0;
    for (const Variant& variant : samples.variants) {
        const double dimmer = std::stod(variant.changes[1].value);
        CHECK(dimmer >= 0.2);
        CHECK(dimmer <= 0.6);
        ++eighths[static_cast<size_t>(std::min(7.0, (dimmer - 0.2) / 0.05))];
        first_half += variant.changes[0].value == "100" ? 1 : 0;
    }
    CHECK(first_half == 32);
    for (const int count : eighths) CHECK(count == 8);
    CHECK(values_of(chosen(text).variants[17]) == values_of(samples.variants[17]));
}

TEST_CASE("names that only differ in signs get different folders") {
    const Chosen names = chosen(
        "set = \"a.toml\"\nname = \"{room.model}\"\n[vary]\n\"room.model\" = "
        "[\"a b\", \"a-b\", \"../a b\"]\n");
    REQUIRE(names.problem == "");
    std::set<std::string> folders;
    for (const Variant& variant : names.variants) {
        folders.insert(variant.folder);
        CHECK(variant.folder.find('/') == std::string::npos);
        CHECK(!variant.folder.starts_with("."));
    }
    CHECK(folders.size() == 3);
}

TEST_CASE("wishes have a number, most or least, and a weight") {
    const Chosen rank = chosen(
        "set = \"a.toml\"\n[vary]\n\"camera.iso\" = [1, 2]\n[rank]\n"
        "\"back wall.texture_stops\" = { want = 0.6, weight = 2 }\n\"skin.clipped_share\" = "
        "\"least\"\n");
    REQUIRE(rank.problem == "");
    REQUIRE(rank.file.wishes.size() == 2);
    CHECK(rank.file.wishes[0].want == 0.6);
    CHECK(rank.file.wishes[0].weight == 2);
    CHECK(rank.file.wishes[1].kind == WishKind::kLeast);
}

TEST_CASE("mistakes are told with their line") {
    const std::string head = "set = \"a.toml\"\n";
    const std::string path = variants_path();
    CHECK(chosen(head).problem == path + ": vary: nothing varies; give [vary] or [[swap]] a key");
    CHECK(chosen(head + "vari = 1\n[vary]\n\"camera.iso\" = [1]\n").problem ==
          path + ":2:8: vari: unknown key; did you mean \"vary\"?");
    CHECK(chosen(head + "[vary]\n\"camera.iso\" = 3\n").problem.find("must be a list of values") !=
          std::string::npos);
    CHECK(chosen(head + "[vary]\n\"camera.iso\" = { from = 1, to = 2 }\n")
              .problem.find("needs steps") != std::string::npos);
    CHECK(chosen(head + "choose = \"list\"\n[vary]\n\"camera.iso\" = [1, 2]\n"
                        "\"camera.f_number\" = [4]\n")
              .problem.find("has 1 values and \"camera.iso\" has 2") != std::string::npos);
    CHECK(chosen(head + "name = \"{camera.iso}\"\n[vary]\n\"camera.iso\" = [1, 1]\n")
              .problem.find("two variants get the name \"1\"") != std::string::npos);
    CHECK(chosen(head + "name = \"{camera.iso}\"\n[vary]\n\"camera.iso\" = [1, 2]\n"
                        "\"camera.f_number\" = [4, 8]\n")
              .problem.find("such as {camera.f_number}") != std::string::npos);
    CHECK(chosen(head + "name = \"{camera.is}\"\n[vary]\n\"camera.iso\" = [1, 2]\n")
              .problem.find("did you mean {camera.iso}?") != std::string::npos);
    CHECK(chosen(head + "[vary]\n\"a.b\" = { from = 0, to = 1, steps = 200 }\n\"a.c\" = { from = "
                        "0, to = 1, steps = 200 }\n")
              .problem.find("more than 10000") != std::string::npos);
    CHECK(chosen("set = \n").problem.starts_with(path + ":1:"));
}

TEST_CASE("a caption has a template of its own, and is the name without one") {
    const std::string vary = "[vary]\n\"camera.iso\" = [100, 200]\n";
    CHECK(chosen("set = \"a.toml\"\n" + vary).variants[1].caption == "camera iso 200");
    const Chosen captions = chosen(
        "set = \"a.toml\"\nname = \"i{camera.iso}\"\n"
        "caption = \"at ISO {camera.iso}\"\n" +
        vary);
    CHECK(captions.variants[1].name == "i200");
    CHECK(captions.variants[1].caption == "at ISO 200");
    CHECK(chosen("set = \"a.toml\"\ncaption = \"{camera.isso}\"\n" + vary).problem ==
          variants_path() +
              ":2:11: caption: {camera.isso} does not vary; did you mean {camera.iso}?");
    CHECK(chosen("set = \"a.toml\"\ncaption = 5\n" + vary).problem ==
          variants_path() + ":2:11: caption: must be text");
}

TEST_CASE("limits are read, and nonsense is refused with its line") {
    const std::string vary = "set = \"a.toml\"\n[vary]\n\"camera.iso\" = [100, 200]\n";
    const FileLimits limits = chosen(vary +
                                     "[limits]\npasses = 200\nnoise_percent = 2.5\nhours = 7.5\n"
                                     "until = \"06:30\"\nmemory_gb = 4\n")
                                  .file.limits;
    CHECK(limits.passes == 200);
    CHECK(limits.noise_percent == 2.5);
    CHECK(limits.hours == 7.5);
    CHECK(limits.until == "06:30");
    CHECK(limits.memory_gb == 4);
    const auto problem = [&](const std::string& line) {
        return chosen(vary + "[limits]\n" + line + "\n").problem;
    };
    const std::string at = variants_path() + ":5:";
    CHECK(problem("passes = 0") ==
          at + "10: limits.passes: must be a whole number from 1 to 1000000");
    CHECK(problem("passes = 2.5").ends_with("must be a whole number from 1 to 1000000"));
    CHECK(problem("noise_percent = -1") ==
          at + "17: limits.noise_percent: must be a number above 0");
    CHECK(problem("hours = \"8\"") == at + "9: limits.hours: must be a number above 0");
    CHECK(problem("until = 6") == at + "9: limits.until: must be a time such as \"06:30\"");
    CHECK(problem("pases = 3") == at + "9: limits.pases: unknown key; did you mean \"passes\"?");
    CHECK(chosen("set = \"a.toml\"\nlimits = 5\n[vary]\n\"camera.iso\" = [100]\n").problem ==
          variants_path() + ":2:10: limits: must be a table: [limits]");
}

TEST_CASE("a night ranks by the words of a search as by the names in the statistics") {
    const VariantsFile file =
        chosen(
            "set = \"a.toml\"\n[vary]\n\"camera.iso\" = [100, 200]\n[rank]\n"
            "\"face.stops\" = 0\n\"back wall.texture\" = \"more\"\n"
            "\"figure.key:fill\" = { want = 4 }\n\"wall no. 2.cover\" = \"less\"\n")
            .file;
    std::map<std::string, WishKind> kinds;
    for (const Wish& wish : file.wishes) kinds[wish.measure] = wish.kind;
    CHECK(kinds == std::map<std::string, WishKind>{{"face.stops_from_camera", WishKind::kNear},
                                                   {"back wall.texture_stops", WishKind::kMost},
                                                   {"figure.key_to_fill", WishKind::kNear},
                                                   {"wall no. 2.cover", WishKind::kLeast}});
}
