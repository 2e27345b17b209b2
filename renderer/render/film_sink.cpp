#include "render/film_sink.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "base/large_memory.h"
#include "base/parallel.h"
#include "fixtures/source_groups.h"

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
    : film_(film),
      meters_(meters),
      groups_(groups),
      tiles_across_((film.width() + kTile - 1) / kTile) {
    const int width = film.width();
    reserve_large(seen_, static_cast<size_t>(film.pixels()));
    seen_.resize(static_cast<size_t>(film.pixels()));
    parallel_blocks(film.height(), 16, [&](int64_t first, int64_t last) {
        for (auto i = static_cast<int>(first) * width; i < static_cast<int>(last) * width; ++i) {
            const auto pixel = static_cast<size_t>(i);
            const Vec2 centre(static_cast<float>(i % width) + 0.5F,
                              static_cast<float>(i / width) + 0.5F);
            const Ray ray = lens.sample_ray(centre, 0.5F, 0.5F).ray;
            const float cos_axis = glm::dot(ray.direction, lens.frame().n);
            Seen& seen = seen_[pixel];
            seen.position = ray.origin + ray.direction * (first_hits.depth[pixel] / cos_axis);
            seen.footprint_m = first_hits.footprint_m[pixel];
            seen.normal = first_hits.normal[pixel];
            seen.surface = first_hits.surface[pixel];
        }
    });
    for (int y = 0; y < film.height(); y += kTile) {
        for (int x = 0; x < width; x += kTile) flat_.push_back(is_flat(x, y) ? 1 : 0);
    }
}

bool FilmSink::is_flat(int first_x, int first_y) const {
    const auto at = [&](int x, int y) -> const Seen& {
        return seen_[static_cast<size_t>(y) * static_cast<size_t>(film_.width()) +
                     static_cast<size_t>(x)];
    };
    const Seen& first = at(first_x, first_y);
    for (int y = first_y; y < std::min(first_y + kTile, film_.height()); ++y) {
        for (int x = first_x; x < std::min(first_x + kTile, film_.width()); ++x) {
            const Seen& seen = at(x, y);
            const float off_plane = glm::dot(seen.position - first.position, first.normal);
            if (seen.surface != first.surface || glm::dot(seen.normal, first.normal) < 0.9999F ||
                !(std::abs(off_plane) < 0.1F * first.footprint_m)) {
                return false;
            }
        }
    }
    return true;
}

bool FilmSink::sees_same_surface(const Seen& seen, const SurfacePoint& at, float reach_px) const {
    if (seen.surface != at.material) return false;
    // Towards the camera in first hits, outer side at the vertex: either sign is the same plane.
    if (std::abs(glm::dot(seen.normal, at.shading)) < 0.9F) return false;
    const float off_plane = std::abs(glm::dot(seen.position - at.position, at.geometric));
    return off_plane < reach_px * seen.footprint_m;
}

// An ellipse in the frame: q = xx dx² + 2 xy dx dy + yy dy² is 1 on its rim.
struct FilmSink::Ellipse {
    float xx = 0, xy = 0, yy = 0;
    float reach_y = 0;  // half the height of the box around it
    float longest = 0;  // half-axis, px
};

struct FilmSink::Shares {
    int first_group = 0;  // that they are meant for
    int groups = 0;
    std::array<float, kMostShares> of;
    std::array<PixelRun, kMostRows> runs;
    size_t count = 0;
    size_t rows = 0;
    std::array<float, kTile> sums{};
    // The flat tile last tested.
    int tile = -1;
    bool tile_is_seen = false;

    float sum() const { return std::accumulate(sums.begin(), sums.end(), 0.0F); }
};

FilmSink::Ellipse FilmSink::disc(float radius) {
    const float inverse = 1.0F / square(radius);
    return {inverse, 0, inverse, radius, radius};
}

// The ellipse that the two half-axes span, with its own axes kept between `least` and `most`. What
// is cut from the long one is given to the short one in part: as if the walk stood for a spot of
// directions as large but of another shape.
FilmSink::Ellipse FilmSink::ellipse_of(const Footprint& footprint, float least, float most) {
    const Vec2& a = footprint.half_axes[0];
    const Vec2& b = footprint.half_axes[1];
    // S = a aᵀ + b bᵀ; its eigenvalues are the squares of the half-axes.
    const float sxx = a.x * a.x + b.x * b.x;
    const float sxy = a.x * a.y + b.x * b.y;
    const float syy = a.y * a.y + b.y * b.y;
    const float middle = 0.5F * (sxx + syy);
    const float half_difference = 0.5F * (sxx - syy);
    const float apart = std::sqrt(half_difference * half_difference + sxy * sxy);
    if (!(middle + apart < 1e12F)) return disc(most);  // no shape that could be trusted
    const float long2 = std::clamp(middle + apart, square(least), square(most));
    const float cut = std::clamp((middle + apart) / long2, 1.0F, square(kMostWidening));
    const float short2 = std::clamp((middle - apart) * cut, square(least), square(most));
    // The long axis' direction as cos 2φ and sin 2φ.
    const float c2 = apart > 0 ? half_difference / apart : 1.0F;
    const float s2 = apart > 0 ? sxy / apart : 0.0F;
    const float mean = 0.5F * (1 / long2 + 1 / short2);
    const float half = 0.5F * (1 / long2 - 1 / short2);
    const float reach2 = 0.5F * (long2 + short2) - 0.5F * (long2 - short2) * c2;
    return {mean + half * c2, half * s2, mean - half * c2, std::sqrt(reach2), std::sqrt(long2)};
}

// Fills in the weights of pixels of a row that lie in one tile.
void FilmSink::spread_tile(
    const Ellipse& e, const Vec2& raster, const SurfacePoint& at, int x, int y, Shares& s) const {
    const int tile = (y / kTile) * tiles_across_ + x / kTile;
    const bool flat = flat_[static_cast<size_t>(tile)] != 0;
    const Seen* const seen = &seen_[static_cast<size_t>(y * film_.width() + x)];
    if (flat && tile != s.tile) {
        s.tile = tile;
        s.tile_is_seen = sees_same_surface(seen[0], at, e.longest);
    }
    const int count = std::min(kTile, film_.width() - x);
    float* const weights = &s.of[s.count];
    s.count += static_cast<size_t>(count);
    if (flat && !s.tile_is_seen) {
        std::fill(weights, weights + count, 0.0F);
        return;
    }
    const float dy = static_cast<float>(y) + 0.5F - raster.y;
    const float dx = static_cast<float>(x) + 0.5F - raster.x;
    for (int i = 0; i < kTile; ++i) {  // all of it, at once
        const float d = dx + static_cast<float>(i);
        weights[i] = std::max(0.0F, 1.0F - (e.xx * d * d + 2 * e.xy * d * dy + e.yy * dy * dy));
    }
    for (int i = 0; i < count && !flat; ++i) {
        if (weights[i] > 0 && !sees_same_surface(seen[i], at, e.longest)) weights[i] = 0;
    }
    for (int i = 0; i < count; ++i) s.sums[static_cast<size_t>(i)] += weights[i];
}

void FilmSink::spread_row(
    const Ellipse& e, const Vec2& raster, const SurfacePoint& at, int y, Shares& s) const {
    const float dy = static_cast<float>(y) + 0.5F - raster.y;
    // Where the row meets the rim.
    const float middle = -e.xy * dy / e.xx;
    const float root2 = square(middle) - (e.yy * dy * dy - 1.0F) / e.xx;
    if (!(root2 > 0)) return;
    const float half = std::sqrt(root2);
    const float from = raster.x + middle - half - 0.5F;
    const int first = std::max(0, static_cast<int>(std::ceil(from)));
    const int last =
        std::min(film_.width() - 1, static_cast<int>(std::floor(raster.x + middle + half - 0.5F)));
    if (first > last) return;
    const size_t begun = s.count;
    const int whole = first / kTile * kTile;
    film_.fetch({y * film_.width() + whole, last - whole + 1}, s.first_group, s.groups);
    for (int x = whole; x <= last; x += kTile) spread_tile(e, raster, at, x, y, s);
    s.runs[s.rows++] = {y * film_.width() + whole, static_cast<int>(s.count - begun)};
}

void FilmSink::spread(const Ellipse& e,
                      const Vec2& raster,
                      const SurfacePoint& at,
                      Shares& s) const {
    const int first = std::max(0, static_cast<int>(std::floor(raster.y - e.reach_y)));
    const int last = std::min(film_.height() - 1, static_cast<int>(raster.y + e.reach_y));
    for (int y = first; y <= last; ++y) spread_row(e, raster, at, y, s);
}

void FilmSink::add_splat(const Vec2& raster,
                         const Footprint& footprint,
                         const SurfacePoint& at,
                         int fixture,
                         const Spectrum& luminance) {
    if (!(raster.x >= 0 && raster.y >= 0 && raster.x < static_cast<float>(film_.width()) &&
          raster.y < static_cast<float>(film_.height()))) {
        return;  // dispersed out of the frame
    }
    const auto f = static_cast<size_t>(fixture);
    Shares s;
    s.first_group = groups_.first[f];
    s.groups = groups_.first[f + 1] - s.first_group;
    const float radius = footprint.known ? radii_.least : radii_.unknown;
    if (radius > 0 && footprint.most_px > kOnePixel) {
        const float most = std::min(footprint.most_px, radii_.most);
        const Ellipse e = footprint.known
                              ? ellipse_of(footprint, std::min(radii_.least, most), most)
                              : disc(std::min(radius, footprint.most_px));
        if (e.longest >= kOnePixel) spread(e, raster, at, s);
    }
    const float sum = s.sum();
    if (sum > 0) {
        for (size_t i = 0; i < s.count; ++i) s.of[i] /= sum;
    } else {
        const int own_x = std::min(static_cast<int>(raster.x), film_.width() - 1);
        const int own_y = std::min(static_cast<int>(raster.y), film_.height() - 1);
        s.runs[0] = {own_y * film_.width() + own_x, 1};
        s.of[0] = 1;
        s.rows = s.count = 1;
    }
    film_.add_spread(std::span(s.runs.data(), s.rows),
                     std::span(s.of.data(), s.count),
                     s.first_group,
                     s.groups,
                     luminance);
}

void FilmSink::add_pixel(int pixel, int fixture, const Spectrum& luminance) {
    const auto f = static_cast<size_t>(fixture);
    for (int g = groups_.first[f]; g < groups_.first[f + 1]; ++g) {
        film_.add_alone(pixel, g, luminance);
    }
}

}  // namespace dapple
