#include "render/film_sink.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "fixtures/emitter.h"

namespace dapple {

FixtureGroups make_fixture_groups(const Scene& scene) {
    FixtureGroups result;
    for (size_t i = 0; i < scene.fixtures.size(); ++i) {
        result.first.push_back(static_cast<int>(result.groups.size()));
        for (const SourceGroup& g : make_source_groups(scene.fixtures[i])) {
            result.groups.push_back(
                {scene.fixtures[i].name + g.suffix, g.spectrum, static_cast<int>(i)});
        }
    }
    result.first.push_back(static_cast<int>(result.groups.size()));
    return result;
}

FilmSink::FilmSink(Film& film,
                   MeterFilm& meters,
                   const FixtureGroups& groups,
                   const FirstHits& first_hits,
                   const Lens& lens)
    : film_(film), meters_(meters), groups_(groups), first_hits_(first_hits) {
    positions_.reserve(first_hits.depth.size());
    for (int y = 0; y < film.height(); ++y) {
        for (int x = 0; x < film.width(); ++x) {
            const Vec2 centre(static_cast<float>(x) + 0.5F, static_cast<float>(y) + 0.5F);
            const Ray ray = lens.sample_ray(centre, 0.5F, 0.5F).ray;
            const float depth = first_hits.depth[positions_.size()];
            const float cos_axis = glm::dot(ray.direction, lens.frame().n);
            positions_.push_back(ray.origin + ray.direction * (depth / cos_axis));
        }
    }
}

bool FilmSink::sees_same_surface(size_t pixel, const SurfacePoint& at, float reach_px) const {
    if (first_hits_.surface[pixel] != at.material) return false;
    // Towards the camera in first hits, outer side at the vertex: either sign is the same plane.
    if (std::abs(glm::dot(first_hits_.normal[pixel], at.shading)) < 0.9F) return false;
    const float off_plane = std::abs(glm::dot(positions_[pixel] - at.position, at.geometric));
    return off_plane < reach_px * first_hits_.footprint_m[pixel];
}

namespace {

// An ellipse in the frame: q = xx dx² + 2 xy dx dy + yy dy² is 1 on its rim.
struct Ellipse {
    float xx = 0, xy = 0, yy = 0;
    Vec2 reach{0};      // half the sides of the box around it
    float longest = 0;  // half-axis, px
};

Ellipse disc(float radius) {
    const float inverse = 1.0F / square(radius);
    return {inverse, 0, inverse, Vec2(radius), radius};
}

// The ellipse that the two half-axes span, with its own axes kept between `least` and `most`.
Ellipse ellipse_of(const Footprint& footprint, float least, float most) {
    const Vec2& a = footprint.half_axes[0];
    const Vec2& b = footprint.half_axes[1];
    // S = a aᵀ + b bᵀ; its eigenvalues are the squares of the half-axes.
    const float sxx = a.x * a.x + b.x * b.x;
    const float sxy = a.x * a.y + b.x * b.y;
    const float syy = a.y * a.y + b.y * b.y;
    const float middle = 0.5F * (sxx + syy);
    const float apart = std::hypot(0.5F * (sxx - syy), sxy);
    if (!(middle + apart < 1e12F)) return disc(most);  // no shape that could be trusted
    const float long2 = std::clamp(middle + apart, square(least), square(most));
    const float short2 = std::clamp(middle - apart, square(least), square(most));
    // The long axis' direction as cos 2φ and sin 2φ.
    const float c2 = apart > 0 ? 0.5F * (sxx - syy) / apart : 1.0F;
    const float s2 = apart > 0 ? sxy / apart : 0.0F;
    const float mean = 0.5F * (1 / long2 + 1 / short2);
    const float half = 0.5F * (1 / long2 - 1 / short2);
    Ellipse e{mean + half * c2, half * s2, mean - half * c2, Vec2(0), std::sqrt(long2)};
    const float mean2 = 0.5F * (long2 + short2);
    const float half2 = 0.5F * (long2 - short2);
    e.reach = Vec2(std::sqrt(mean2 + half2 * c2), std::sqrt(mean2 - half2 * c2));
    return e;
}

}  // namespace

void FilmSink::add_splat(const Vec2& raster,
                         const Footprint& footprint,
                         const SurfacePoint& at,
                         int fixture,
                         const Spectrum& luminance) {
    if (!(raster.x >= 0 && raster.y >= 0 && raster.x < static_cast<float>(film_.width()) &&
          raster.y < static_cast<float>(film_.height()))) {
        return;  // dispersed out of the frame
    }
    const int own_x = std::min(static_cast<int>(raster.x), film_.width() - 1);
    const int own_y = std::min(static_cast<int>(raster.y), film_.height() - 1);
    std::array<PixelShare, kMostPixels> shares;
    size_t count = 0;
    float sum = 0;
    const float radius = footprint.known ? radii_.least : radii_.unknown;
    if (radius > 0) {
        const Ellipse e =
            footprint.known ? ellipse_of(footprint, radii_.least, radii_.most) : disc(radius);
        const auto low = [](float x) { return std::max(0, static_cast<int>(std::floor(x))); };
        const int last_x = std::min(film_.width() - 1, static_cast<int>(raster.x + e.reach.x));
        const int last_y = std::min(film_.height() - 1, static_cast<int>(raster.y + e.reach.y));
        if (e.longest >= kOnePixel) {
            for (int y = low(raster.y - e.reach.y); y <= last_y; ++y) {
                for (int x = low(raster.x - e.reach.x); x <= last_x; ++x) {
                    const float dx = static_cast<float>(x) + 0.5F - raster.x;
                    const float dy = static_cast<float>(y) + 0.5F - raster.y;
                    const float weight =
                        1.0F - (e.xx * dx * dx + 2 * e.xy * dx * dy + e.yy * dy * dy);
                    const int pixel = y * film_.width() + x;
                    if (weight <= 0 || count == kMostPixels ||
                        !sees_same_surface(static_cast<size_t>(pixel), at, e.longest)) {
                        continue;
                    }
                    shares[count++] = {pixel, weight};
                    sum += weight;
                }
            }
        }
    }
    if (count == 0) {
        shares[count++] = {own_y * film_.width() + own_x, 1.0F};
        sum = 1;
    }
    for (size_t i = 0; i < count; ++i) shares[i].share /= sum;
    add(std::span(shares.data(), count), fixture, luminance);
}

void FilmSink::add(std::span<const PixelShare> shares, int fixture, const Spectrum& luminance) {
    const auto f = static_cast<size_t>(fixture);
    for (int g = groups_.first[f]; g < groups_.first[f + 1]; ++g) {
        film_.add(shares, g, luminance);
    }
}

}  // namespace dapple
