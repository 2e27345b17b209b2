// Faces that the picture cannot show: burnt out, or behind a cloth or a pane.
#include <cmath>

#include "plausible/staged_text.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// 1.5 m before the figure, on the line from the lens to its face.
std::string cloth_before_the_face(const std::string& size, const std::string& more = "") {
    return good_set_but("[[region]]",
                        "[[diffuser]]\nname = \"screen\"\nposition = [0.12, 1.55, 0.45]\n"
                        "aim = \"camera\"\nsize_m = " +
                            size + "\ncloth = \"full\"\n" + more + "[[region]]");
}

std::string lines_with(const std::string& text, const std::string& words) {
    std::string all;
    for (const std::string& line : doubts_about(text)) {
        if (line.find(words) != std::string::npos) all += line + "\n";
    }
    return all;
}

const std::string kBefore = "stands between the lens and the face of \"figure\"";

std::string pane_at(const std::string& position) {
    return good_set_but("[[region]]",
                        "[[glass]]\nname = \"pane\"\nkit = \"pane-reeded\"\nposition = " +
                            position + "\nheight_mm = 500\nwidth_mm = 500\n[[region]]");
}

}  // namespace

TEST_CASE("a cloth before the face is told, unless a region or its size says that it is meant") {
    const std::string told = lines_with(cloth_before_the_face("[0.5, 0.5]"), kBefore);
    CHECK(told.find("diffuser \"screen\": position: " + kBefore + " and hides 100 % of it") !=
          std::string::npos);
    CHECK(told.ends_with("(a guess)\n"));
    const std::string watched = "[[region]]\nname = \"cloth\"\nsurface = \"screen\"\n";
    CHECK(lines_with(cloth_before_the_face("[0.5, 0.5]", watched), kBefore).empty());
    CHECK(lines_with(cloth_before_the_face("[2.4, 2.4]"), kBefore).empty());
    // Only its lower half.
    CHECK(
        lines_with(changed(cloth_before_the_face("[0.5, 0.5]"), "1.55, 0.45", "1.2, 0.45"), kBefore)
            .empty());
}

TEST_CASE("a pane in a beam is told where it stands before the face, and not near the lens") {
    // The key's axis, moved so that it passes through the pane.
    const std::string crossing = changed(pane_at("[0.05, 1.3, -0.3]"),
                                         "position = [-1.6, 2.0, 0.9]\naim = [0, 1.4, -1.0]",
                                         "position = [-1.6, 1.8, 0.6]\naim = [0.05, 1.5, -0.3]");
    CHECK(lines_with(crossing, kBefore).find("glass \"pane\": position: ") != std::string::npos);
    CHECK(lines_with(pane_at("[0.26, 1.25, 2.3]"), kBefore).empty());
    CHECK(lines_with(pane_at("[0.05, 1.3, -0.3]"), kBefore).empty());
}

TEST_CASE("a burnt-out face is told where no glass is before the lamp, and a dark one is not") {
    const size_t glass = kGoodSet.find("[[glass]]");
    const size_t after = kGoodSet.find("[[fixture]]", glass);
    const std::string bright = kGoodSet.substr(0, glass) + kGoodSet.substr(after);
    const std::string told = joined(doubts_about(bright));
    CHECK(
        told.find("camera: shutter_s: the face looks burnt out at f/2.8, 1/60 s, ISO 800: half of "
                  "it is about 2 stops and more above white") != std::string::npos);
    CHECK(joined(doubts_about(changed(bright, "iso = 800", "iso = 100"))).empty());
    CHECK(joined(doubts_about(kGoodSet)).empty());
    // Only the fill is on: hardly any light on the face.
    const std::string dark = changed(bright, "led-spot-40\"", "led-spot-40\"\ndimmer = 0");
    CHECK(lines_with(dark, "the face looks").empty());
}

TEST_CASE("a face of which a fifth is above white is told with how much less light keeps it") {
    const size_t glass = kGoodSet.find("[[glass]]");
    const size_t after = kGoodSet.find("[[fixture]]", glass);
    const std::string bare = kGoodSet.substr(0, glass) + kGoodSet.substr(after);
    const std::string told = joined(doubts_about(changed(bare, "iso = 800", "iso = 200")));
    CAPTURE(told);
    CHECK(told.find("the face looks burnt out at f/2.8, 1/60 s, ISO 200: ") != std::string::npos);
    const size_t less = told.find("by a quick estimate; ");
    REQUIRE(less != std::string::npos);
    // The same with so much less light is quiet.
    const double stops = std::stod(told.substr(less + 21));
    CHECK(stops < 1);
    const std::string iso = "iso = " + std::to_string(200 * std::exp2(-stops));
    CHECK(joined(doubts_about(changed(bare, "iso = 800", iso))).empty());
}

TEST_CASE("a third of the frame that is burnt out is told") {
    const std::string longer = good_set_but("shutter_s = 0.0166667", "shutter_s = 0.5");
    CHECK(
        joined(doubts_about(longer))
            .find(
                "camera: shutter_s: the picture looks burnt out at f/2.8, 0.5 s, ISO 800: a third "
                "of it is about 1 stop and more above white") != std::string::npos);
}
