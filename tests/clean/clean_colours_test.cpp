// Brightness and colour are cleaned apart.
#include <doctest/doctest.h>

#include "noisy_film.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kWall = 96;
constexpr int kPasses = 8;

// Stripes of brightness without noise. `hero_at`: the one wavelength of eight that a pixel has in
// a pass, or -1 for all of them.
template <class HeroAt>
Film coloured_stripes(const HeroAt& hero_at) {
    Film film(kWall, kWall, one_group(), 0x1p-24);
    for (int pass = 0; pass < kPasses; ++pass) {
        film.begin_pass(make_pass_wavelengths(1, static_cast<uint32_t>(pass)));
        for (int i = 0; i < film.pixels(); ++i) {
            const float light = i % kWall / 4 % 2 == 0 ? 9 : 3;
            const int hero = hero_at(i, pass);
            Spectrum carried(hero < 0 ? light : 0.0F);
            if (hero >= 0) carried[hero] = light * kSpectrumSize;
            film.add(i, 0, carried);
        }
        film.end_pass();
    }
    return film;
}

// Mean distance of the pixels' chromaticities x, y from those of the whole frame.
template <class XyzAt>
double colour_noise(const XyzAt& xyz_at) {
    const auto xy = [](const Xyz& c) { return glm::dvec2(c.x, c.y) / (c.x + c.y + c.z); };
    Xyz sum(0);
    for (int i = 0; i < kWall * kWall; ++i) sum += xyz_at(i);
    double distance = 0;
    for (int i = 0; i < kWall * kWall; ++i) distance += glm::distance(xy(xyz_at(i)), xy(sum));
    return distance / (kWall * kWall);
}

}  // namespace

TEST_CASE("coloured noise goes from stripes that stay, and no light is lost") {
    const Film film = coloured_stripes(
        [](int i, int pass) { return static_cast<int>(uniform(i, pass) * kSpectrumSize); });
    const CleanFrame clean = clean_film(film, plain_wall(kWall, kWall), kWhite);
    const double before = colour_noise([&](int i) { return film.resolve(i); });
    const double after = colour_noise([&](int i) { return clean.total[static_cast<size_t>(i)]; });
    CHECK(after < 0.25 * before);
    CHECK(sum_of(clean) == doctest::Approx(sum_of(film)).epsilon(1e-5));
    double bright = 0;
    double dark = 0;
    for (int i = 0; i < film.pixels(); ++i) {
        (i % kWall / 4 % 2 == 0 ? bright : dark) += clean.total[static_cast<size_t>(i)].y;
    }
    CHECK(bright / dark > 2.5);  // 3 without noise
}

TEST_CASE("colours that every pass has found stay under noise of brightness") {
    // Bands of 12 pixels, warm and cool, equally bright.
    std::vector<LightGroup> groups = one_group();
    groups.push_back({"warm", normalised_to_lumen(planck(2856)), 1});
    Film film(kWall, kWall, groups, 0x1p-24);
    for (int pass = 0; pass < kPasses; ++pass) {
        film.begin_pass(make_pass_wavelengths(1, static_cast<uint32_t>(pass)));
        for (int i = 0; i < film.pixels(); ++i) {
            const auto light = static_cast<float>(5 * white_noise(i, pass));
            film.add(i, i / kWall / 12 % 2, Spectrum(light));
        }
        film.end_pass();
    }
    const CleanFrame clean = clean_film(film, plain_wall(kWall, kWall), kWhite);
    const auto x_over_y = [&](int band) {
        Xyz sum(0);
        for (int i = kWall * (12 * band + 3); i < kWall * (12 * band + 9); ++i) {
            sum += clean.total[static_cast<size_t>(i)];
        }
        return sum.x / sum.y;
    };
    // X/Y of illuminants D65 and A (CIE 15): 0.9505 and 1.0985.
    for (const int band : {2, 4}) CHECK(x_over_y(band) == doctest::Approx(0.9505).epsilon(0.02));
    for (const int band : {3, 5}) CHECK(x_over_y(band) == doctest::Approx(1.0985).epsilon(0.02));
}

TEST_CASE("a colour that one pass alone has found is weak, and its brightness stays") {
    const auto is_in_blob = [](int i) {
        return std::hypot(i % kWall - kWall / 2, i / kWall - kWall / 2) < 16;
    };
    Film film(kWall, kWall, one_group(), 0x1p-24);
    for (int pass = 0; pass < kPasses; ++pass) {
        film.begin_pass(make_pass_wavelengths(1, static_cast<uint32_t>(pass)));
        for (int i = 0; i < film.pixels(); ++i) {
            film.add(i, 0, Spectrum(5.0F));
            Spectrum coloured(0.0F);  // one wavelength of eight, as behind dispersing glass
            coloured[2] = 60.0F * kSpectrumSize;
            if (pass == 3 && is_in_blob(i)) film.add(i, 0, coloured);
        }
        film.end_pass();
    }
    const CleanFrame clean = clean_film(film, plain_wall(kWall, kWall), kWhite);
    const auto colour_of = [](const Xyz& c) { return glm::dvec2(c.x, c.y) / (c.x + c.y + c.z); };
    Xyz of_film(0);
    Xyz of_clean(0);
    for (int i = 0; i < film.pixels(); ++i) {
        of_film += film.resolve(i);
        of_clean += clean.total[static_cast<size_t>(i)];
    }
    // Of the whole frame, so that a colour which is only spread counts.
    const auto white = colour_of(film.resolve(0));
    const double before = glm::distance(colour_of(of_film), white);
    CHECK(before > 0.01);
    CHECK(glm::distance(colour_of(of_clean), white) < 0.5 * before);  // measured: 0.37
    CHECK(sum_of(clean) == doctest::Approx(sum_of(film)).epsilon(1e-4));
}

TEST_CASE("after one pass, colours on which the halves of its light walks differ are weak") {
    // Discs of one wavelength each, as of light walks behind dispersing glass, over even light.
    constexpr int kDiscs = 600;
    constexpr int kRadius = 6;
    Film film(kWall, kWall, one_group(), 0x1p-24);
    film.begin_pass(make_pass_wavelengths(1, 0));
    for (int i = 0; i < film.pixels(); ++i) film.add(i, 0, Spectrum(2.0F));
    for (int d = 0; d < kDiscs; ++d) {
        const auto draw = [&](int k, int n) { return static_cast<int>(uniform(3 * d + k, 0) * n); };
        Spectrum carried(0.0F);
        carried[draw(2, kSpectrumSize)] = 1.0F * kSpectrumSize;
        const int u = draw(0, kWall);
        const int v = draw(1, kWall);
        for (int y = std::max(0, v - kRadius); y <= std::min(kWall - 1, v + kRadius); ++y) {
            for (int x = std::max(0, u - kRadius); x <= std::min(kWall - 1, u + kRadius); ++x) {
                film.add(x, y, 0, carried, d % 2);
            }
        }
    }
    film.end_pass();
    const CleanFrame clean = clean_film(film, plain_wall(kWall, kWall), kWhite);
    const double before = colour_noise([&](int i) { return film.resolve(i); });
    const double after = colour_noise([&](int i) { return clean.total[static_cast<size_t>(i)]; });
    CHECK(after < 0.25 * before);  // measured: 0.11
    CHECK(sum_of(clean) == doctest::Approx(sum_of(film)).epsilon(1e-5));
}
