// What photographers do on purpose. Nothing is told about it.
#include <filesystem>

#include "plausible/staged_text.h"

using namespace dapple;
using namespace dapple::test;

namespace {

void check_quiet(const std::string& claim, const std::string& text) {
    const std::vector<std::string> lines = doubts_about(text);
    INFO(claim << "\n" << joined(lines));
    CHECK(lines.empty());
}

std::string with(const std::string& more) {
    return good_set_but("[[region]]", more + "\n[[region]]");
}

}  // namespace

TEST_CASE("touching is not cutting") {
    check_quiet("glass on the floor, on a column, on a board, and beside a wall",
                with("[[glass]]\nform = \"jar\"\nposition = [-1, 0, -2.0]\n"
                     "[[column]]\nname = \"table\"\nposition = [-0.9, 0, -2.6]\n"
                     "size_m = [0.5, 0.5]\nheight_m = 0.8\n"
                     "[[glass]]\nform = \"bottle\"\nposition = [-0.9, 0.8, -2.6]\n"
                     "fill = { liquid = \"water\", level = 0.9 }\n"
                     "[[bounce]]\nname = \"top\"\nposition = [1.0, 0.7, -2.5]\n"
                     "aim = [1.0, 2.0, -2.5]\nsize_m = [0.8, 0.8]\n"
                     "[[glass]]\nform = \"tumbler\"\nposition = [1.0, 0.7, -2.5]\n"
                     "[[glass]]\nform = \"jar\"\nposition = [-1.4, 0, -2.94]"));
    check_quiet("a seated figure on its seat, and one behind a table",
                with("[[stand_in]]\nname = \"second\"\npose = \"seated\"\n"
                     "position = [-1.2, 0, -2.0]\n"
                     "[[column]]\nname = \"seat\"\nposition = [-1.2, 0, -2.25]\n"
                     "size_m = [0.4, 0.4]\nheight_m = 0.42\n"
                     "[[column]]\nname = \"desk\"\nposition = [-1.2, 0, -1.6]\n"
                     "size_m = [1.0, 0.6]\nheight_m = 0.74"));
    check_quiet("a figure against a wall",
                good_set_but("position = [0, 0, -1.0]", "position = [0, 0, -2.82]"));
}

TEST_CASE("glass in glass is on purpose where it fits or where its priority is given") {
    check_quiet("a tumbler under a glass bell",
                with("[[glass]]\nname = \"bell\"\nform = \"jar\"\nheight_mm = 300\n"
                     "diameter_mm = 200\nposition = [1.0, 0.3, -2.5]\ntilt_deg = 180\n"
                     "[[glass]]\nform = \"tumbler\"\nposition = [1.0, 0.02, -2.5]"));
    check_quiet("a ball in a jar's wall, with priority",
                with("[[glass]]\nname = \"ball\"\nform = \"ball\"\npriority = 30\n"
                     "position = [-1.2, 1.7, 0.475]"));
}

TEST_CASE("rigging is not doubted") {
    check_quiet("feet of a stand near a wall, and a housing that touches it",
                with("[[fixture]]\nname = \"wash\"\nkit = \"led-spot-15\"\nstand = true\n"
                     "position = [-2.36, 1.8, -2.0]\naim = [0, 1.2, -1.0]"));
    check_quiet("a lamp built into the ceiling",
                with("[[fixture]]\nname = \"down\"\nkit = \"led-spot-15\"\n"
                     "position = [-1.0, 2.98, -1.5]\naim = [-1.0, 0, -1.5]"));
    check_quiet("cloth on a lamp, pegged to its barn doors",
                with("[[fixture]]\nname = \"soft\"\nkit = \"tungsten-300\"\n"
                     "barn_doors_deg = [90, 90, 120, 120]\n"
                     "position = [-2.0, 2.2, -0.5]\naim = [0, 1.4, -1.0]\n"
                     "[[diffuser]]\nname = \"pegged\"\nposition = [-1.9, 2.16, -0.525]\n"
                     "aim = [0, 1.4, -1.0]\nsize_m = [0.3, 0.3]\ncloth = \"half\"\n"
                     "[[diffuser]]\nname = \"clip\"\nclip_to = \"fill\"\ncloth = \"half\""));
    check_quiet("a black cloth larger than the floor",
                with("[[flag]]\nname = \"black\"\nposition = [0, 0.01, 0]\naim = [0, 2, 0]\n"
                     "size_m = [9, 9]"));
}

TEST_CASE("shadows, silhouettes and light off a wall are on purpose") {
    check_quiet("a background light through the figure, and one into the lens",
                with("[[fixture]]\nname = \"shadow\"\nkit = \"led-spot-40\"\n"
                     "position = [0.2, 2.8, 1.5]\naim = [-0.1, 0.4, -2.95]\ndimmer = 0.1\n"
                     "[[fixture]]\nname = \"halo\"\nkit = \"led-spot-40\"\n"
                     "position = [-0.1, 1.3, -1.5]\naim = [0.3, 1.5, 2.6]"));
    check_quiet("a flag that hides the chest from the lamp that is aimed at it, and no more",
                with("[[fixture]]\nname = \"rim\"\nkit = \"led-spot-40\"\nstand = true\n"
                     "position = [1.2, 2.2, -2.4]\naim = [0, 1.2, -1.0]\n"
                     "[[flag]]\nname = \"wing\"\nposition = [1.0, 2.03, -2.17]\n"
                     "aim = \"rim\"\nsize_m = [0.06, 0.06]"));
    check_quiet("a flag in the beam",
                with("[[flag]]\nname = \"cutter\"\n"
                     "position = [-1.0, 1.6, 0.2]\n"
                     "aim = [-1.6, 2.0, 0.9]\nsize_m = [0.05, 0.4]"));
    check_quiet("a flag whose edge cuts half of the face",
                changed(with("[[flag]]\nname = \"cutter\"\nposition = [-0.57, 1.72, -0.49]\n"
                             "aim = \"key\"\nsize_m = [0.2, 0.3]"),
                        "aim = [0, 1.4, -1.0]",
                        "aim = \"figure face\""));
    check_quiet("a lamp to the ceiling",
                with("[[fixture]]\nname = \"bounced\"\nkit = \"led-flood-60\"\n"
                     "position = [2.0, 2.0, 1.5]\naim = [1.5, 3.0, 1.0]"));
}

TEST_CASE("nothing is doubted about the project's own sets" * doctest::test_suite("slow")) {
    int sets = 0;
    for (const auto& entry :
         std::filesystem::recursive_directory_iterator(DAPPLE_SOURCE_DIR "/scenes")) {
        const std::string path = entry.path().string();
        const bool is_kit = entry.path().parent_path().filename() == "kit";
        if (entry.path().extension() != ".toml" || is_kit) continue;
        const std::vector<std::string> lines = doubts_about(text_of_file(path), path);
        INFO(path << "\n" << joined(lines));
        CHECK(lines.empty());
        ++sets;
    }
    CHECK(sets > 60);
}
