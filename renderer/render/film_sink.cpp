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

bool FilmSink::sees_same_surface(size_t pixel, const SurfacePoint& at) const {
    if (first_hits_.surface[pixel] != at.material) return false;
    // Towards the camera in first hits, outer side at the vertex: either sign is the same plane.
    if (std::abs(glm::dot(first_hits_.normal[pixel], at.shading)) < 0.9F) return false;
    const float off_plane = std::abs(glm::dot(positions_[pixel] - at.position, at.geometric));
    return off_plane < radius_ * first_hits_.footprint_m[pixel];
}

void FilmSink::add_splat(const Vec2& raster,
                         const SurfacePoint& at,
                         int fixture,
                         const Spectrum& luminance) {
    const int own_x = std::min(static_cast<int>(raster.x), film_.width() - 1);
    const int own_y = std::min(static_cast<int>(raster.y), film_.height() - 1);
    std::array<PixelShare, kMostPixels> shares;
    size_t count = 0;
    float sum = 0;
    if (radius_ >= kOnePixel) {
        const int reach = std::min(static_cast<int>(std::ceil(radius_)), 9);
        for (int y = std::max(0, own_y - reach); y <= std::min(film_.height() - 1, own_y + reach);
             ++y) {
            for (int x = std::max(0, own_x - reach);
                 x <= std::min(film_.width() - 1, own_x + reach);
                 ++x) {
                const float dx = static_cast<float>(x) + 0.5F - raster.x;
                const float dy = static_cast<float>(y) + 0.5F - raster.y;
                const float weight = 1.0F - (dx * dx + dy * dy) / square(radius_);
                const int pixel = y * film_.width() + x;
                if (weight <= 0 || !sees_same_surface(static_cast<size_t>(pixel), at)) continue;
                shares[count++] = {pixel, weight};
                sum += weight;
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
