// Glass, cloths and flags that no light meets, and faces out of focus: what is told, and what is
// done on purpose.
#include <cmath>

#include "plausible/camera/find_focus_doubts.h"
#include "plausible/staged_text.h"

using namespace dapple;
using namespace dapple::test;

namespace {

const std::string kJarPlace = "position = [-1.24, 1.68, 0.475]";

std::string also(const std::string& more) {
    return good_set_but("[[region]]", more + "\n[[region]]");
}

void check_silent(const std::string& claim, const std::string& text) {
    const std::vector<std::string> lines = doubts_about(text);
    INFO(claim << "\n" << joined(lines));
    CHECK(lines.empty());
}

// The only doubt about the text.
std::string doubt_of(const std::string& text) {
    const std::vector<std::string> lines = doubts_about(text);
    INFO(joined(lines));
    REQUIRE(lines.size() == 1);
    return lines[0];
}

// The set with the place that the doubt says is in the beam.
std::string moved_as_told(const std::string& text, const std::string& from) {
    const std::string line = doubt_of(text);
    const size_t at = line.rfind("position = ");
    REQUIRE(at != std::string::npos);
    return changed(text, from, line.substr(at, line.find(']', at) - at + 1));
}

}  // namespace

TEST_CASE("glass that no beam meets is told, with the beam that passes nearest") {
    const std::string low = "position = [-1.24, 0.9, 0.475]";
    const std::string text = good_set_but(kJarPlace, low);
    const std::string line = doubt_of(text);
    CHECK(line.find("glass \"jar\": position: no beam meets the glass; that of \"key\" passes ") !=
          std::string::npos);
    CHECK(line.find(" above it: aim \"key\" at [-1.24, 1.03, 0.475], or move the glass: ") !=
          std::string::npos);
    check_silent("where it is told to be", moved_as_told(text, low));
    const std::string left = "position = [-2.1, 1.68, -0.9]";
    const std::string beside = doubt_of(good_set_but(kJarPlace, left));
    CHECK(beside.find("to camera right") != std::string::npos);
}

TEST_CASE("glass behind something is told with what is between") {
    const std::string lines = joined(doubts_about(
        also("[[column]]\nname = \"crate\"\nposition = [-1.45, 0, 0.72]\nsize_m = [0.2, 0.06]\n"
             "height_m = 2.4\n")));
    INFO(lines);
    CHECK(lines.find("no beam meets the glass; the column \"crate\" is between it and \"key\"") !=
          std::string::npos);
}

TEST_CASE("cloths and flags that no light meets are told") {
    const std::string cloth = "position = [1.27, 1.6, 0.63]";
    const std::string away = "position = [2.2, 0.5, 2.5]";
    const std::string line = doubt_of(good_set_but(cloth, away));
    CHECK(line.find("diffuser \"cloth\": position: no beam meets the cloth; that of ") !=
          std::string::npos);
    const std::string flag = also(
        "[[flag]]\nname = \"wing\"\nposition = [2.2, 0.4, 2.4]\naim = [0, 1, 1]\n"
        "size_m = [0.3, 0.3]");
    const std::string told = doubt_of(flag);
    CHECK(told.find("flag \"wing\": position: no beam meets the flag; that of ") !=
          std::string::npos);
    CHECK(told.ends_with("(a guess)"));
}

TEST_CASE("unlit things that are there on purpose are not told") {
    check_silent("glass on the floor, in the frame",
                 also("[[glass]]\nform = \"bottle\"\nposition = [1.1, 0, -2.2]"));
    check_silent("a cloth as a backdrop",
                 also("[[diffuser]]\nposition = [-1.4, 1.2, -2.9]\naim = [-1.4, 1.2, 0]\n"
                      "size_m = [1, 1.8]\ncloth = \"muslin\""));
    check_silent("black cloth beside the figure",
                 also("[[flag]]\nposition = [1.0, 1.2, -0.5]\naim = [0, 1.2, -1]\n"
                      "size_m = [0.6, 1.2]"));
    check_silent("a flag that shades the lens",
                 also("[[flag]]\nposition = [0.0, 2.1, 2.5]\naim = [0, 1.2, 0]\n"
                      "size_m = [0.3, 0.3]"));
}

TEST_CASE("a window's light counts for glass near its pane, not for glass far away") {
    const std::string window =
        "[[window]]\nwall = \"wall_left\"\ncentre_m = [1.0, 1.5]\nsize_m = [0.8, 0.8]\n"
        "luminance_cd_m2 = 30\n";
    const std::string pane = "[[glass]]\nname = \"hung\"\nform = \"pane\"\nturn_deg = 90\n";
    check_silent(
        "near the pane",
        changed(also(window + pane + "position = [-2.3, 1.4, 1.0]"), kJarPlace, kJarPlace));
    const std::string far = doubt_of(also(window + pane + "position = [1.9, 0.5, 2.2]"));
    CHECK(far.find("glass \"hung\": position: no beam meets the glass") != std::string::npos);
}

TEST_CASE("a face far out of focus is told with its distance and the depth of field") {
    const std::string line = doubt_of(good_set_but("focus_m = 3.6", "focus_m = 1.5"));
    CHECK(
        line.find("camera: focus_m: is 1.5, and the face of \"figure\" is 3.5 m away: at f/2.8 it "
                  "is sharp from 1.4 m to 1.7 m; focus_m = \"figure face\" (a guess)") !=
        std::string::npos);
    check_silent("as told", good_set_but("focus_m = 3.6", "focus_m = \"figure face\""));
    check_silent("a little off", good_set_but("focus_m = 3.6", "focus_m = 3.2"));
    check_silent("on glass before the figure, on purpose",
                 changed(also("[[glass]]\nform = \"jar\"\nposition = [0.45, 1.0, 1.2]\n"
                              "[[column]]\nname = \"plinth\"\nposition = [0.45, 0, 1.2]\n"
                              "size_m = [0.3, 0.3]\nheight_m = 1.0\n"),
                         "focus_m = 3.6",
                         "focus_m = 1.4"));
    check_silent(
        "on the wall of a region, on purpose",
        changed(
            good_set_but("focus_m = 3.6", "focus_m = 5.6"), "f_number = 2.8", "f_number = 1.2"));
}

TEST_CASE("the depth of field is that of a table for 50 mm at f/2.8") {
    // Closed form: hyperfocal distance H = f²/(N c) + f; near = s (H - f)/(H + s - 2f), far =
    // s (H - f)/(H - s) (any handbook of photographic optics).
    Camera camera;
    camera.focal_length = 0.05F;
    camera.f_number = 2.8F;
    camera.focus_distance = 3;
    const double f = 0.05;
    const double c = std::hypot(0.036, 0.024) / 1500;
    const double hyperfocal = f * f / (2.8 * c) + f;
    const SharpRange range = sharp_range(camera);
    CHECK(range.nearest ==
          doctest::Approx(3 * (hyperfocal - f) / (hyperfocal + 3 - 2 * f)).epsilon(1e-5));
    CHECK(range.farthest == doctest::Approx(3 * (hyperfocal - f) / (hyperfocal - 3)).epsilon(1e-5));
    camera.focus_distance = static_cast<float>(hyperfocal) + 1;
    CHECK(std::isinf(sharp_range(camera).farthest));
}
