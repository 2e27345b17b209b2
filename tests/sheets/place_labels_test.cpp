// Labels beside points.
#include "sheets/place_labels.h"

#include <doctest/doctest.h>

#include "base/units.h"

using namespace dapple;

namespace {

const PageBox kArea{DVec2(10, 10), DVec2(150, 100)};

std::vector<LabelWish> ring_of(int count, double radius) {
    std::vector<LabelWish> wishes;
    for (int i = 0; i < count; ++i) {
        const double angle = 2 * kPi * i / count;
        const DVec2 at = DVec2(80, 55) + radius * DVec2(std::cos(angle), std::sin(angle));
        wishes.push_back(
            {std::to_string(i + 1) + " a lamp by the door", std::to_string(i + 1), at});
    }
    return wishes;
}

// Whether a point of the line is in the box; lines are short.
bool is_crossed(const DVec2& from, const DVec2& to, const PageBox& box) {
    for (int i = 1; i < 200; ++i) {
        const DVec2 p = from + i / 200.0 * (to - from);
        if (PageBox{p, p + 1e-9}.overlaps(box)) return true;
    }
    return false;
}

}  // namespace

TEST_CASE("a label alone is beside its point with its long text") {
    const std::vector<LabelWish> wishes = {{"1 key", "1", DVec2(80, 55)}};
    const std::vector<PlacedLabel> labels = place_labels(wishes, {kArea, {}, {}});
    REQUIRE(labels.size() == 1);
    CHECK(labels[0].text.text() == "1 key");
    CHECK_FALSE(labels[0].has_line);
    CHECK(kArea.contains(labels[0].box));
}

TEST_CASE("labels of crowded points cover neither each other nor other texts, nor do their lines") {
    for (const double radius : {0.0, 1.0, 5.0, 25.0}) {
        const std::vector<LabelWish> wishes = ring_of(25, radius);
        LabelRoom room{kArea, {{DVec2(70, 40), DVec2(90, 45)}}, {}};
        const std::vector<PlacedLabel> labels = place_labels(wishes, room);
        CAPTURE(radius);
        CHECK(labels.size() >= (radius > 0 ? 25 : 20));
        for (size_t i = 0; i < labels.size(); ++i) {
            CHECK(kArea.contains(labels[i].box));
            CHECK_FALSE(labels[i].box.overlaps(room.forbidden[0]));
            for (size_t j = 0; j < labels.size(); ++j) {
                if (i == j) continue;
                CHECK_FALSE(labels[i].box.overlaps(labels[j].box));
                CHECK_FALSE(
                    is_crossed(wishes[labels[i].wish].anchor, labels[i].line_end, labels[j].box));
            }
        }
    }
}

TEST_CASE("a label that fits nowhere is left out") {
    const PageBox tiny{DVec2(79, 54), DVec2(81, 56)};
    CHECK(place_labels({{"1 key", "1", DVec2(80, 55)}}, {tiny, {}, {}}).empty());
}
