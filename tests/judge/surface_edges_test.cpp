#include "judge/surface_edges.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "judge/judge_film.h"
#include "known_films.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kWidth = 120;
constexpr int kHeight = 80;

FilmRecord even_film() {
    return known_film(kWidth, kHeight, {"key"}, [](int, int, size_t) { return 1.0; });
}

// A wall that runs away to the right: 1/depth is linear in x.
FilmRecord slanted_wall() {
    FilmRecord record = even_film();
    for (size_t i = 0; i < record.first_hits.depth.size(); ++i) {
        const auto x = static_cast<float>(i % kWidth);
        record.first_hits.depth[i] = 1 / (0.5F - 0.003F * x);
        record.first_hits.normal[i] = Normal(-0.8F, 0, 0.6F);
        record.first_hits.footprint_m[i] = 0.002F * record.first_hits.depth[i];
    }
    return record;
}

long edges_of(const FilmRecord& record) {
    const auto edges = find_surface_edges(record);
    return std::count(edges.begin(), edges.end(), 1);
}

}  // namespace

TEST_CASE("a plane has no edges, whichever way it runs") {
    CHECK(edges_of(even_film()) == 0);
    CHECK(edges_of(slanted_wall()) == 0);
}

TEST_CASE("a gap between planks, the outline of a thing and a corner are edges") {
    FilmRecord gap = slanted_wall();
    for (int x = 0; x < kWidth; ++x)
        gap.first_hits.depth[static_cast<size_t>(40 * kWidth + x)] += 0.1F;
    CHECK(edges_of(gap) == 5 * kWidth);  // the row, the two that see its step, and one more each
    FilmRecord box = even_film();
    for (int y = 20; y < 40; ++y) {
        for (int x = 30; x < 60; ++x) {
            box.first_hits.depth[static_cast<size_t>(y * kWidth + x)] = 3;
        }
    }
    const auto edges = find_surface_edges(box);
    CHECK(edges[static_cast<size_t>(30 * kWidth + 30)] == 1);
    CHECK(edges[static_cast<size_t>(30 * kWidth + 45)] == 0);
    FilmRecord corner = even_film();
    put_surface(corner, 0, Normal(1, 0, 0), 0.5F, {60, 0, kWidth, kHeight});
    CHECK(edges_of(corner) == 4 * kHeight);
}

TEST_CASE("dark gaps between planks are no texture of the light") {
    FilmRecord wall = even_film();
    for (int y = 0; y < kHeight; y += 9) {
        for (int x = 0; x < kWidth; ++x) {
            const auto i = static_cast<size_t>(y * kWidth + x);
            wall.first_hits.depth[i] += 0.05F;
            wall.luminance[i] = 0.05F;
        }
    }
    add_region(wall, "planks", 0, 0, kWidth, kHeight);
    const FilmStatistics s = judge_film(wall);
    CHECK(*s.regions[0].pattern.texture_stops < 1e-3);
    CHECK(*s.regions[0].pattern.cover == 1);
    CHECK(s.regions[0].pixels == kWidth * kHeight);  // they count in everything else
}
