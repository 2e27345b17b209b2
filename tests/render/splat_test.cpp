// Splats on the film: spread over pixels of the same surface, with no light made or lost.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numeric>
#include <vector>

#include "render/film_sink.h"
#include "render/prepare/find_first_hits.h"
#include "render/prepare/setup.h"
#include "render/read_meters.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

class SplatBench {
  public:
    SplatBench() {
        film_.begin_pass(make_pass_wavelengths(1, 0));
        meters_.begin_pass(make_pass_wavelengths(1, 0));
    }

    // Where a pixel's middle is seen.
    SurfacePoint seen_at(const Vec2& raster) const {
        const Ray ray = setup_.lens.sample_ray(raster, 0.5F, 0.5F).ray;
        Hit hit;
        REQUIRE(world_.closest(ray, hit));
        return world_.surface_at(ray, hit);
    }

    // The film's sums after one splat more, in its first layer's Y.
    std::vector<int64_t> splat(const Vec2& raster,
                               const Footprint& footprint,
                               const SplatRadii& radii) {
        const FilmSums before = film_.sums();
        sink_.set_radii(radii);
        const SplatPart all{raster, Spectrum(kLuminance)};
        sink_.add_splat({&all, 1}, footprint, seen_at(raster), 0);
        const FilmSums after = film_.sums();
        const auto pixels = static_cast<size_t>(film_.pixels());
        std::vector<int64_t> added(pixels);
        for (size_t i = 0; i < pixels; ++i) added[i] = after[pixels + i] - before[pixels + i];
        return added;
    }

    // What comes into one pixel alone.
    int64_t whole() {
        const auto one = splat(Vec2(7.5F, 7.5F), {}, {});
        return std::accumulate(one.begin(), one.end(), int64_t{0});
    }

    FilmSink& sink() { return sink_; }
    FilmSums sums() const { return film_.sums(); }
    int width() const { return film_.width(); }
    int height() const { return film_.height(); }
    const FirstHits& first_hits() const { return first_hits_; }

  private:
    static constexpr float kLuminance = 1000;

    Scene scene_ = room_without_glass();
    World world_{scene_};
    Setup setup_{scene_, world_};
    Film film_{scene_.camera.width,
               scene_.camera.height,
               setup_.groups.groups,
               sum_quantum(scene_.camera, 26)};
    MeterFilm meters_ = make_meter_film(setup_);
    FirstHits first_hits_ = find_first_hits(scene_, world_, setup_.lens);
    FilmSink sink_{film_, meters_, setup_.groups, first_hits_, setup_.lens};
};

Footprint ellipse(const Vec2& a, const Vec2& b) {
    Footprint footprint;
    footprint.known = true;
    footprint.half_axes[0] = a;
    footprint.half_axes[1] = b;
    return footprint;
}

}  // namespace

TEST_CASE("a splat brings the same light however it is spread") {
    SplatBench bench;
    const auto whole = static_cast<double>(bench.whole());
    REQUIRE(whole > 0);
    const SplatRadii radii{6, 1.25F, 15};
    const std::vector<Footprint> footprints = {
        {},
        ellipse(Vec2(4, 1), Vec2(-0.5F, 2)),
        ellipse(Vec2(900, 300), Vec2(0, 0.1F)),
        ellipse(Vec2(0), Vec2(0)),
        ellipse(Vec2(1e9F, 0), Vec2(0, 1e9F)),
    };
    for (const Footprint& footprint : footprints) {
        for (const Vec2& share : {Vec2(0.01F), Vec2(0.5F), Vec2(0.3F, 0.8F), Vec2(0.99F, 0.5F)}) {
            const Vec2 raster =
                share * Vec2(static_cast<float>(bench.width()), static_cast<float>(bench.height()));
            const auto added = bench.splat(raster, footprint, radii);
            const auto sum =
                static_cast<double>(std::accumulate(added.begin(), added.end(), int64_t{0}));
            CAPTURE(raster.x);
            CAPTURE(raster.y);
            // Shares are floats, and each is rounded to a quantum.
            CHECK(sum == doctest::Approx(whole).epsilon(1e-5));
        }
    }
}

TEST_CASE("it stays on the surface that it fell on, within its ellipse") {
    SplatBench bench;
    const Vec2 middle(static_cast<float>(bench.width()) / 2,
                      static_cast<float>(bench.height()) / 2);
    const auto surface_at = [&](int x, int y) {
        return bench.first_hits().surface[static_cast<size_t>(y * bench.width() + x)];
    };
    const int32_t own = surface_at(static_cast<int>(middle.x), static_cast<int>(middle.y));
    const auto added = bench.splat(middle, ellipse(Vec2(9, 0), Vec2(0, 2)), {6, 1.25F, 15});
    int lit = 0;
    for (int y = 0; y < bench.height(); ++y) {
        for (int x = 0; x < bench.width(); ++x) {
            if (added[static_cast<size_t>(y * bench.width() + x)] == 0) continue;
            ++lit;
            CHECK(surface_at(x, y) == own);
            const float dx = (static_cast<float>(x) + 0.5F - middle.x) / 9;
            const float dy = (static_cast<float>(y) + 0.5F - middle.y) / 2;
            CHECK(dx * dx + dy * dy < 1);
        }
    }
    CHECK(lit > 5);
}

TEST_CASE("its shares are those of a slanted ellipse") {
    SplatBench bench;
    const Vec2 middle(0.5F * static_cast<float>(bench.width()) + 0.3F,
                      0.5F * static_cast<float>(bench.height()) - 0.2F);
    const Vec2 a(4, 3);
    const Vec2 b(-1.5F, 2);
    const auto added = bench.splat(middle, ellipse(a, b), {6, 1.25F, 15});
    // 1 - q with q = dᵀ (a aᵀ + b bᵀ)⁻¹ d (E53), over the pixels that see the same surface.
    const glm::dmat2 spread = glm::dmat2(glm::outerProduct(a, a) + glm::outerProduct(b, b));
    std::vector<double> expected(added.size(), 0.0);
    const auto surface = [&](const Vec2& at) {
        return bench.first_hits().surface[static_cast<size_t>(
            static_cast<int>(at.y) * bench.width() + static_cast<int>(at.x))];
    };
    for (int y = 0; y < bench.height(); ++y) {
        for (int x = 0; x < bench.width(); ++x) {
            const Vec2 centre(static_cast<float>(x) + 0.5F, static_cast<float>(y) + 0.5F);
            const glm::dvec2 d(centre - middle);
            const double q = glm::dot(d, glm::inverse(spread) * d);
            if (q >= 1) continue;
            REQUIRE(surface(centre) == surface(middle));
            expected[static_cast<size_t>(y * bench.width() + x)] = 1 - q;
        }
    }
    const double all = std::accumulate(expected.begin(), expected.end(), 0.0);
    const auto whole = static_cast<double>(bench.whole());
    // Shares are floats, and each is rounded to a quantum.
    for (size_t i = 0; i < added.size(); ++i) {
        CHECK(std::abs(static_cast<double>(added[i]) / whole - expected[i] / all) < 1e-5);
    }
}

TEST_CASE("splats that a block of walks keeps back come to the same film") {
    SplatBench at_once;
    SplatBench kept;
    const SplatRadii radii{6, 1.25F, 15};
    at_once.sink().set_radii(radii);
    kept.sink().set_radii(radii);
    std::unique_ptr<LightSink> late = kept.sink().for_some_walks();
    REQUIRE(late);
    for (int i = 0; i < 7; ++i) {
        const Vec2 raster(3.0F + 2.1F * static_cast<float>(i), 5.0F + static_cast<float>(i));
        const SurfacePoint at = at_once.seen_at(raster);
        const SplatPart all{raster, Spectrum(1.0F + static_cast<float>(i))};
        at_once.sink().add_splat({&all, 1}, {}, at, 0);
        late->add_splat({&all, 1}, {}, at, 0);
    }
    // One that was dispersed out of the frame is no splat.
    const SplatPart outside{Vec2(-3, 5), Spectrum(1.0F)};
    late->add_splat({&outside, 1}, {}, at_once.seen_at(Vec2(5, 5)), 0);
    CHECK(kept.sums() != at_once.sums());
    late.reset();
    CHECK(kept.sums() == at_once.sums());
}

namespace {

// A splat in parts, and the same parts one by one: the sums of all layers.
void check_parts(const std::vector<SplatPart>& parts, const Footprint& footprint) {
    SplatBench together;
    SplatBench apart;
    const SplatRadii radii{6, 1.25F, 15};
    const SurfacePoint at = together.seen_at(Vec2(9, 8));
    together.sink().set_radii(radii);
    apart.sink().set_radii(radii);
    together.sink().add_splat(parts, footprint, at, 0);
    for (const SplatPart& part : parts) apart.sink().add_splat({&part, 1}, footprint, at, 0);
    const FilmSums of_together = together.sums();
    const FilmSums of_apart = apart.sums();
    REQUIRE(of_together.size() == of_apart.size());
    // Together they are rounded once, by half a quantum, apart each by as much; and sums of floats,
    // 2^-24 each, of eight parts.
    const double rounding = 0.5 * static_cast<double>(parts.size() + 1);
    double largest = 0;
    for (const int64_t sum : of_apart) largest = std::max(largest, std::abs(double(sum)));
    REQUIRE(largest > 1e4);
    for (size_t i = 0; i < of_apart.size(); ++i) {
        const auto difference = static_cast<double>(of_together[i] - of_apart[i]);
        CHECK(std::abs(difference) < rounding + 0x1p-21 * largest);
    }
}

// Parts of one wavelength each, `step` apart.
std::vector<SplatPart> dispersed_parts(size_t count, const Vec2& first, const Vec2& step) {
    std::vector<SplatPart> parts(count);
    for (size_t k = 0; k < count; ++k) {
        parts[k].raster = first + static_cast<float>(k) * step;
        parts[k].luminance[static_cast<int>(k)] = 1.0F + static_cast<float>(k);
    }
    return parts;
}

}  // namespace

TEST_CASE("a splat in parts is what its parts are one by one") {
    Footprint slanted;
    slanted.known = true;
    slanted.half_axes[0] = Vec2(2.5F, 1.5F);
    slanted.half_axes[1] = Vec2(-0.5F, 1.0F);
    for (const size_t count : {2U, 5U, 8U}) {
        CAPTURE(count);
        check_parts(dispersed_parts(count, Vec2(7, 8), Vec2(0.6F, 0.2F)), slanted);
        // Some of them out of the frame.
        check_parts(dispersed_parts(count, Vec2(-0.5F, 5), Vec2(0.6F, 0)), slanted);
        // Each a disc of many rows: from five on there is no room to lay them out together.
        check_parts(dispersed_parts(count, Vec2(3, 4), Vec2(1.3F, 1.1F)), {});
    }
}
