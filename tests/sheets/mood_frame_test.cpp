// Mood frames and smaller copies of pictures.
#include "sheets/mood_frame.h"

#include <doctest/doctest.h>

#include "sheets/reduce_picture.h"
#include "spectrum/white_balance.h"

using namespace dapple;

namespace {

Picture ramp_picture(int width, int height) {
    Picture picture{width, height, {}};
    for (int i = 0; i < width * height; ++i) {
        const float x = static_cast<float>(i) / static_cast<float>(width * height);
        picture.pixels.emplace_back(x, 1 - x, 0.5F * x);
    }
    return picture;
}

}  // namespace

TEST_CASE("the frame's pixels are unchanged on its mount") {
    const Picture frame = ramp_picture(120, 80);
    const MoodFrame mood = make_mood_frame(frame, {"Boathouse", "jar 7", "Warm key."});
    CHECK(mood.picture.width == frame.width + 2 * mood.left);
    REQUIRE(mood.picture.pixels.size() ==
            static_cast<size_t>(mood.picture.width) * static_cast<size_t>(mood.picture.height));
    bool same = true;
    for (int y = 0; y < frame.height; ++y) {
        for (int x = 0; x < frame.width; ++x) {
            same = same && mood.picture.at(mood.left + x, mood.top + y) == frame.at(x, y);
        }
    }
    CHECK(same);
}

TEST_CASE("the mount has one tone around the frame, and a long caption makes it higher") {
    const Picture frame = ramp_picture(240, 160);
    const MoodFrame brief = make_mood_frame(frame, {"Boathouse", "", "Warm key."});
    const MoodFrame lengthy =
        make_mood_frame(frame, {std::string(60, 'm'), std::string(60, 'w'), std::string(200, 'n')});
    CHECK(lengthy.picture.height > brief.picture.height + 40);
    const Picture& p = brief.picture;
    CHECK(p.at(0, 0) == p.at(0, p.height - 1));
    CHECK(p.at(p.width - 1, 0) == p.at(p.width - 1, p.height - 1));
    // Between the mount's edge and the caption, nothing is drawn: texts stay inside.
    for (const MoodFrame* mood : {&brief, &lengthy}) {
        const Picture& q = mood->picture;
        for (int y = 0; y < q.height; ++y) {
            for (int x = 0; x < mood->left - 1; ++x) {
                if (q.at(x, y) != q.at(0, 0)) FAIL("left of the caption");
                if (q.at(q.width - 1 - x, y) != q.at(0, 0)) FAIL("right of the caption");
            }
        }
    }
}

TEST_CASE("the name joins title and variant where there are both") {
    CHECK(name_of({"Boathouse", "jar 7", ""}) == "Boathouse: jar 7");
    CHECK(name_of({"Boathouse", "", ""}) == "Boathouse");
    CHECK(name_of({"", "jar 7", ""}) == "jar 7");
}

TEST_CASE("a smaller copy keeps the mean light and the proportions") {
    const Picture large = ramp_picture(300, 200);
    const Picture small = reduce_picture(large, 70);
    CHECK(small.width == 70);
    CHECK(small.height == 47);
    const auto mean = [](const Picture& picture) {
        double sum = 0;
        for (const Rgb& c : picture.pixels) sum += static_cast<double>(srgb_decode(c.g));
        return sum / static_cast<double>(picture.pixels.size());
    };
    CHECK(mean(small) == doctest::Approx(mean(large)).epsilon(1e-5));
    CHECK(reduce_picture(large, 300).pixels == large.pixels);
}

TEST_CASE("black and white lines one pixel wide become the grey of half the light") {
    Picture lines{64, 2, {}};
    for (int i = 0; i < 128; ++i) lines.pixels.emplace_back(i % 2 == 0 ? 1.0F : 0.0F);
    const Picture small = reduce_picture(lines, 32);
    CHECK(small.pixels.front().r == doctest::Approx(srgb_encode(0.5F)));
}
