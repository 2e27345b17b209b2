// Rebalanced films against films that are rendered anew with other random numbers.
#include <doctest/doctest.h>

#include <cmath>

#include "base/random.h"
#include "rebalance/rebalance.h"
#include "render/agreement.h"

using namespace dapple;

namespace {

constexpr int kPasses = 40;
constexpr int kMixes = 20;
// 20 mixes with six regions and one meter each: 140 comparisons. By chance one of them is beyond
// four standard errors (of 40 passes: Student's t) once in fifty runs with other seeds.
constexpr double kMostErrors = 4;

Scene three_forms() {
    Scene scene = test::room_without_glass();
    scene.materials[0].reflectance = Rgb(0.5F, 0.35F, 0.2F);
    scene.camera.width = 48;
    scene.camera.height = 32;
    scene.regions.clear();
    test::add_tiles(scene);
    scene.fixtures[0].source = SourceKind::kLed;
    scene.fixtures[0].cct_k = 4500;
    scene.fixtures[1].source = SourceKind::kLed;
    scene.fixtures[1].cct_k = 3600;
    scene.fixtures[2].source = SourceKind::kDaylight;
    scene.fixtures[2].cct_k = 5600;
    scene.meters.push_back(test::meter_at("face", Point(0.5F, -0.3F, 0.8F), Point(0, 1, 0)));
    return scene;
}

FilmRecord rendered(const Scene& scene, uint64_t seed) {
    const World world(scene);
    RenderOptions options;
    options.passes = kPasses;
    options.seed = seed;
    const RenderResult result = render_frame(scene, world, options);
    return make_film_record({.scene = scene,
                             .film = result.film,
                             .first_hits = result.first_hits,
                             .meters = &result.meters,
                             .seen = &result.seen,
                             .clean = nullptr,
                             .run = {}});
}

void check_means(const GroupMeans& a, const GroupMeans& b) {
    const double error = std::hypot(*a.stderr_of_sum(), *b.stderr_of_sum());
    CAPTURE(a.sum());
    CAPTURE(b.sum());
    CAPTURE(error);
    CHECK(std::abs(a.sum() - b.sum()) < kMostErrors * error);
    CHECK(error < 0.04 * a.sum());  // a larger one would hide differences
}

}  // namespace

TEST_CASE("rebalanced and freshly rendered films agree for random dimmers and bi-colour mixes" *
          doctest::test_suite("slow")) {
    const Scene scene = three_forms();
    const FilmRecord film = rendered(scene, 1);
    for (int mix = 0; mix < kMixes; ++mix) {
        CAPTURE(mix);
        const auto draw = [&](uint64_t i) {
            return static_cast<double>(mix_bits(static_cast<uint64_t>(mix), i) >> 11U) * 0x1p-53;
        };
        Scene changed = scene;
        for (size_t f = 0; f < 3; ++f) {
            changed.fixtures[f].dimmer = static_cast<float>(0.05 + 0.95 * draw(f));
        }
        changed.fixtures[0].cct_k = static_cast<float>(2800 + 3600 * draw(3));
        changed.fixtures[1].cct_k = static_cast<float>(2800 + 3600 * draw(4));
        std::vector<Fixture> wanted = film.fixtures;
        for (size_t f = 0; f < 3; ++f) {
            wanted[f].dimmer = changed.fixtures[f].dimmer;
            wanted[f].cct_k = changed.fixtures[f].cct_k;
        }
        const FilmRecord mixed = rebalance(film, wanted, make_layer_changes(film, wanted));
        const FilmRecord fresh = rendered(changed, 100 + static_cast<uint64_t>(mix));
        for (size_t r = 0; r < mixed.regions.size(); ++r) {
            check_means(mixed.regions[r].luminance, fresh.regions[r].luminance);
        }
        check_means(mixed.meters[0].lux, fresh.meters[0].lux);
    }
}

TEST_CASE("a dimmed tungsten lamp agrees with a fresh render, its colour too" *
          doctest::test_suite("slow")) {
    Scene scene = three_forms();
    for (Fixture& f : scene.fixtures) {
        f.source = SourceKind::kTungsten;
        f.cct_k = 3200;
    }
    const FilmRecord film = rendered(scene, 1);
    std::vector<Fixture> wanted = film.fixtures;
    for (size_t f = 0; f < 3; ++f) {
        wanted[f].dimmer = 0.3F;
        scene.fixtures[f].dimmer = 0.3F;
    }
    const FilmRecord mixed = rebalance(film, wanted, make_layer_changes(film, wanted));
    const FilmRecord fresh = rendered(scene, 2);
    Rgb a(0);
    Rgb b(0);
    for (size_t i = 0; i < film.light.size(); ++i) {
        a += mixed.light[i];
        b += fresh.light[i];
    }
    // Light from red-brown wall to wall is the hard case: a few reflections. 1 % in each channel.
    for (int c = 0; c < 3; ++c) CHECK(a[c] == doctest::Approx(b[c]).epsilon(0.01));
    for (size_t r = 0; r < mixed.regions.size(); ++r) {
        check_means(mixed.regions[r].luminance, fresh.regions[r].luminance);
    }
}
