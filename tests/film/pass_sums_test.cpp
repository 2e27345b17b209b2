// A pass's sums of 32 bits, with their list, are compared with sums of 64 bits.
#include "film/pass_sums.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/random.h"

using namespace dapple;

namespace {

constexpr int kWidth = 21;  // its last run has five pixels
constexpr int kHeight = 35;
constexpr int kGroups = 2;

size_t place(int pixel, int group, size_t channel) {
    return static_cast<size_t>((group * 3 + static_cast<int>(channel)) * kWidth * kHeight + pixel);
}

std::vector<int64_t> all_of(const PassSums& sums) {
    std::vector<int64_t> all;
    for (int g = 0; g < kGroups; ++g) {
        for (size_t c = 0; c < 3; ++c) {
            for (size_t band = 0; band < sums.bands(); ++band) {
                const std::vector<int64_t> some = sums.band_sums(band, g, c);
                all.insert(all.end(), some.begin(), some.end());
            }
        }
    }
    return all;
}

// Quanta of all sizes up to 2^28.9, mostly of one sign, so that sums of them exceed 32 bits.
float random_quanta(RandomStream& random, float sign) {
    const float size = std::exp2(28.9F * random.next());
    return std::rint(random.next() < 0.1F ? -sign * size : sign * size);
}

}  // namespace

TEST_CASE("what outgrows 32 bits is put aside and nothing is lost") {
    PassSums sums(kWidth, kHeight, kGroups);
    std::vector<int64_t> expected(place(0, kGroups, 0));
    RandomStream random(1, 0, 0, Purpose::kTest);
    for (int i = 0; i < 30000; ++i) {
        const PixelRun run{8 * static_cast<int>(random.next() * 3),
                           static_cast<int>(random.next() * kHeight)};
        const int group = random.next() < 0.5F ? 0 : 1;
        RunQuanta quanta{};
        for (size_t c = 0; c < 3; ++c) {
            for (int j = 0; j < std::min(PixelRun::kMost, kWidth - run.x); ++j) {
                quanta.xyz[c][j] = random_quanta(random, c == 2 ? -1.0F : 1.0F);
                expected[place(run.y * kWidth + run.x + j, group, c)] +=
                    static_cast<int64_t>(quanta.xyz[c][j]);
            }
        }
        sums.add(quanta, run, group);
        // An addition to one pixel, which may exceed 32 bits by itself.
        const auto x = static_cast<int>(random.next() * kWidth);
        const auto y = static_cast<int>(random.next() * kHeight);
        const PixelQuanta one{7, static_cast<int64_t>(std::exp2(50.0 * random.next())), -i};
        if (!sums.add_if_fits(one, x, y, group)) sums.put_aside(one, x, y, group);
        for (size_t c = 0; c < 3; ++c) expected[place(y * kWidth + x, group, c)] += one[c];
    }
    CHECK(*std::max_element(expected.begin(), expected.end()) > int64_t{1} << 49);
    CHECK(*std::min_element(expected.begin(), expected.end()) < -(int64_t{1} << 31));
    CHECK(all_of(sums) == expected);
    for (size_t band = 0; band < sums.bands(); ++band) sums.clear_band(band);
    CHECK(all_of(sums) == std::vector<int64_t>(expected.size()));
}

TEST_CASE("quanta are rounded to the nearest, and clearing a band leaves the others") {
    PassSums sums(kWidth, kHeight, 1);
    RunQuanta quanta{};
    quanta.xyz[1] = RunFloats{0.49F, 0.51F, -0.49F, -0.51F, 8388609};
    for (const int y : {15, 16}) sums.add(quanta, {16, y}, 0);
    sums.clear_band(0);
    const auto first_band = sums.band_sums(0, 0, 1);
    CHECK(first_band == std::vector<int64_t>(16 * kWidth));
    const auto second = sums.band_sums(1, 0, 1);
    CHECK(std::vector(second.begin() + 16, second.begin() + kWidth) ==
          std::vector<int64_t>{0, 1, 0, -1, 8388609});
}
