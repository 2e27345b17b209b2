// Splats on the film are spread over pixels of the same surface, and no light is made or lost.
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

    // The surface point that is seen at a raster position.
    SurfacePoint seen_at(const Vec2& raster) const {
        const Ray ray = setup_.lens.sample_ray(raster, 0.5F, 0.5F).ray;
        Hit hit;
        REQUIRE(world_.closest(ray, hit));
        return world_.surface_at(ray, hit);
    }

    // Adds one splat. Returns what it adds to the film's sums of Y in the first light group.
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

    // The sum that a splat adds if it is not spread.
    int64_t unspread_sum() {
        const auto added = splat(Vec2(7.5F, 7.5F), {}, {});
        return std::accumulate(added.begin(), added.end(), int64_t{0});
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
    WorkWatch watch_;
    FirstHits first_hits_ = find_first_hits(scene_, world_, setup_.lens, watch_);
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

TEST_CASE("a splat adds the same light however it is spread") {
    SplatBench bench;
    const auto unspread = static_cast<double>(bench.unspread_sum());
    REQUIRE(unspread > 0);
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
            CHECK(sum == doctest::Approx(unspread).epsilon(1e-5));
        }
    }
}

TEST_CASE("a splat stays within its ellipse and on the surface where its light fell") {
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

TEST_CASE("a splat with slanted half-axes has the shares of their ellipse") {
    SplatBench bench;
    const Vec2 middle(0.5F * static_cast<float>(bench.width()) + 0.3F,
                      0.5F * static_cast<float>(bench.height()) - 0.2F);
    const Vec2 a(4, 3);
    const Vec2 b(-1.5F, 2);
    const auto added = bench.splat(middle, ellipse(a, b), {6, 1.25F, 15});
    // 1 - q with q = dᵀ (a aᵀ + b bᵀ)⁻¹ d (E107), over the pixels that see the same surface.
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
    const auto unspread = static_cast<double>(bench.unspread_sum());
    // Shares are floats, and each is rounded to a quantum.
    for (size_t i = 0; i < added.size(); ++i) {
        CHECK(std::abs(static_cast<double>(added[i]) / unspread - expected[i] / all) < 1e-5);
    }
}

TEST_CASE("buffered splats make the same film") {
    SplatBench direct;
    SplatBench buffered;
    const SplatRadii radii{6, 1.25F, 15};
    direct.sink().set_radii(radii);
    buffered.sink().set_radii(radii);
    std::unique_ptr<LightSink> buffer = buffered.sink().make_buffered(0);
    REQUIRE(buffer);
    for (int i = 0; i < 7; ++i) {
        const Vec2 raster(3.0F + 2.1F * static_cast<float>(i), 5.0F + static_cast<float>(i));
        const SurfacePoint at = direct.seen_at(raster);
        const SplatPart all{raster, Spectrum(1.0F + static_cast<float>(i))};
        direct.sink().add_splat({&all, 1}, {}, at, 0);
        buffer->add_splat({&all, 1}, {}, at, 0);
    }
    // A splat that was dispersed out of the frame adds nothing.
    const SplatPart outside{Vec2(-3, 5), Spectrum(1.0F)};
    buffer->add_splat({&outside, 1}, {}, direct.seen_at(Vec2(5, 5)), 0);
    CHECK(buffered.sums() != direct.sums());
    buffer.reset();
    CHECK(buffered.sums() == direct.sums());
}

namespace {

// Compares the sums of a splat with several parts and of the same parts as splats of their own.
void check_parts(const std::vector<SplatPart>& parts, const Footprint& footprint) {
    SplatBench together;
    SplatBench separate;
    const SplatRadii radii{6, 1.25F, 15};
    const SurfacePoint at = together.seen_at(Vec2(9, 8));
    together.sink().set_radii(radii);
    separate.sink().set_radii(radii);
    together.sink().add_splat(parts, footprint, at, 0);
    for (const SplatPart& part : parts) separate.sink().add_splat({&part, 1}, footprint, at, 0);
    const FilmSums sums_together = together.sums();
    const FilmSums sums_separate = separate.sums();
    REQUIRE(sums_together.size() == sums_separate.size());
    // The whole splat is rounded once, by half a quantum. Separate parts are rounded once each. The
    // floats of eight parts are rounded by 2^-24 each.
    const double rounding = 0.5 * static_cast<double>(parts.size() + 1);
    double largest = 0;
    for (const int64_t sum : sums_separate) largest = std::max(largest, std::abs(double(sum)));
    REQUIRE(largest > 1e4);
    for (size_t i = 0; i < sums_separate.size(); ++i) {
        const auto difference = static_cast<double>(sums_together[i] - sums_separate[i]);
        CHECK(std::abs(difference) < rounding + 0x1p-21 * largest);
    }
}

// Parts of one wavelength each; `step` is the distance between neighbours.
std::vector<SplatPart> dispersed_parts(size_t count, const Vec2& first, const Vec2& step) {
    std::vector<SplatPart> parts(count);
    for (size_t k = 0; k < count; ++k) {
        parts[k].raster = first + static_cast<float>(k) * step;
        parts[k].luminance[static_cast<int>(k)] = 1.0F + static_cast<float>(k);
    }
    return parts;
}

}  // namespace

TEST_CASE("a splat with several parts equals the sum of its parts") {
    Footprint slanted;
    slanted.known = true;
    slanted.half_axes[0] = Vec2(2.5F, 1.5F);
    slanted.half_axes[1] = Vec2(-0.5F, 1.0F);
    for (const size_t count : {2U, 5U, 8U}) {
        CAPTURE(count);
        check_parts(dispersed_parts(count, Vec2(7, 8), Vec2(0.6F, 0.2F)), slanted);
        // Some parts are out of the frame.
        check_parts(dispersed_parts(count, Vec2(-0.5F, 5), Vec2(0.6F, 0)), slanted);
        // Each part is a disc of many rows. A layout has no room for five of them or more.
        check_parts(dispersed_parts(count, Vec2(3, 4), Vec2(1.3F, 1.1F)), {});
    }
}
