#include "render/prepare/find_blur.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/parallel.h"
#include "clean/plane.h"

namespace dapple {

namespace {

constexpr int kBlurRowsPerBlock = 4;
constexpr int kTile = 8;           // px
constexpr float kSharp = 1;        // px: blur up to this is none
constexpr float kOffAxis = 0.85F;  // of the aperture's radius
// On the axes, and between them for every other pixel.
constexpr float kLow = 0.5F - 0.5F * kOffAxis;
constexpr float kHigh = 0.5F + 0.5F * kOffAxis;
constexpr std::array<std::array<Vec2, 4>, 2> kAperturePlaces = {
    {{Vec2(kLow, 0.5F), Vec2(kHigh, 0.5F), Vec2(0.5F, kLow), Vec2(0.5F, kHigh)},
     {Vec2(kLow, kLow), Vec2(kHigh, kLow), Vec2(kLow, kHigh), Vec2(kHigh, kHigh)}}};
constexpr float kSoftLamp = 3;   // px, the least blur of a lamp's soft disc
constexpr float kBefore = 0.9F;  // of a lamp's distance: what is nearer may hide it
constexpr int kAlbedoLevels = 5;

float blur_at(const Lens& lens, float depth) {
    return std::isfinite(depth) && depth > 0 ? lens.blur_px(depth) : 0.0F;
}

// By pixel: 1 where something out of focus may be seen through a part of the aperture.
class BlurredTiles {
  public:
    BlurredTiles(const Lens& lens, const FirstHits& hits)
        : columns_((hits.width + kTile - 1) / kTile), rows_((hits.height + kTile - 1) / kTile) {
        std::vector<float> most(static_cast<size_t>(columns_) * static_cast<size_t>(rows_), 0.0F);
        for (size_t i = 0; i < hits.depth.size(); ++i) {
            const int x = static_cast<int>(i) % hits.width / kTile;
            const int y = static_cast<int>(i) / hits.width / kTile;
            float& tile = most[static_cast<size_t>(y * columns_ + x)];
            tile = std::max(tile, blur_at(lens, hits.depth[i]));
        }
        marks_.assign(most.size(), 0);
        for (int y = 0; y < rows_; ++y) {
            for (int x = 0; x < columns_; ++x) {
                mark(x, y, most[static_cast<size_t>(y * columns_ + x)]);
            }
        }
    }

    bool has(int x, int y) const {
        return marks_[static_cast<size_t>(y / kTile * columns_ + x / kTile)] != 0;
    }
    bool any() const { return std::count(marks_.begin(), marks_.end(), 1) > 0; }

  private:
    void mark(int x, int y, float blur) {
        if (!(blur > kSharp)) return;
        const int reach =
            std::min(std::max(columns_, rows_), static_cast<int>(std::ceil(0.5F * blur / kTile)));
        for (int v = std::max(0, y - reach); v <= std::min(rows_ - 1, y + reach); ++v) {
            for (int u = std::max(0, x - reach); u <= std::min(columns_ - 1, x + reach); ++u) {
                marks_[static_cast<size_t>(v * columns_ + u)] = 1;
            }
        }
    }

    int columns_;
    int rows_;
    std::vector<char> marks_;
};

// Calls body(x, y) for each pixel.
template <class Body>
void for_each_blur_pixel(const SeenPoints& points, WorkWatch& watch, const Body& body) {
    parallel_blocks(points.height, kBlurRowsPerBlock, [&](int64_t first, int64_t last) {
        watch.next_block_or_throw();
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < points.width; ++x) body(x, y);
        }
    });
}

// Of two points of one surface that a pixel sees, px across the whole aperture.
float spread_px(const Lens& lens, const SeenPoint& centre, const SeenPoint& other) {
    if (!(centre.footprint_m > 0)) return 0;
    const Vec3 sight = glm::normalize(centre.position - lens.position());
    const Vec3 between = other.position - centre.position;
    const Vec3 across = between - glm::dot(between, sight) * sight;
    return 2 / kOffAxis * glm::length(across) / centre.footprint_m;
}

struct Blur {
    float px = 0;
    Rgb albedo{0};
};

Blur blur_of(const Sight& sight,
             const Lens& lens,
             float first_depth,
             const SeenPoint& centre,
             const Vec2& raster) {
    const float own = blur_at(lens, first_depth);
    Blur blur{0, centre.albedo};
    const bool is_odd = (static_cast<int>(raster.x) + static_cast<int>(raster.y)) % 2 != 0;
    const std::array<Vec2, 4>& places = kAperturePlaces[is_odd ? 1 : 0];
    for (const Vec2& place : places) {
        const SeenPoint other = sight.look(raster, place);
        blur.albedo += other.albedo;
        const float px = other.surface == centre.surface
                             ? std::min(own, spread_px(lens, centre, other))
                             : std::max(own, blur_at(lens, sight.first_depth(raster, place)));
        blur.px = std::max(blur.px, px);
    }
    blur.albedo /= static_cast<float>(places.size() + 1);
    return blur;
}

// Different pixels look through different points: the blur becomes the most of the 3 × 3 pixels
// that see the same surface.
void even_out(SeenPoints& points) {
    std::vector<float> before;
    before.reserve(points.pixels.size());
    for (const SeenPoint& seen : points.pixels) before.push_back(seen.blur_px);
    for_each_row(points.height, [&](int y) {
        for (int x = 0; x < points.width; ++x) {
            SeenPoint& own = points.pixels[static_cast<size_t>(y * points.width + x)];
            for (int v = std::max(0, y - 1); v <= std::min(points.height - 1, y + 1); ++v) {
                for (int u = std::max(0, x - 1); u <= std::min(points.width - 1, x + 1); ++u) {
                    const auto j = static_cast<size_t>(v * points.width + u);
                    if (points.pixels[j].surface == own.surface) {
                        own.blur_px = std::max(own.blur_px, before[j]);
                    }
                }
            }
        }
    });
}

// Whether a lamp's face is so small beside its blur that what is seen is the blur's disc.
bool is_disc(const Fixture& fixture, const Lens& lens, float depth) {
    const float size = fixture.form == FixtureForm::kPanel
                           ? std::max(fixture.panel_size.x, fixture.panel_size.y)
                           : fixture.source_diameter;
    const float blur = blur_at(lens, depth);
    return blur > kSoftLamp && size < blur * lens.pixel_width_at(depth);
}

// What shows a lamp's face out of focus becomes a part of the lamp's disc, but for what hides it.
void mark_soft_lamps(const std::vector<Fixture>& fixtures,
                     const Lens& lens,
                     const FirstHits& hits,
                     SeenPoints& points) {
    for (size_t i = 0; i < hits.lamp.size(); ++i) {
        if (hits.lamp[i] < 0) continue;
        const Fixture& lamp = fixtures[static_cast<size_t>(hits.lamp[i])];
        const float depth = glm::dot(lamp.position - lens.position(), lens.frame().n);
        if (!is_disc(lamp, lens, depth) || hits.depth[i] < kBefore * depth) continue;
        const auto x = static_cast<float>(static_cast<int>(i) % points.width);
        const auto y = static_cast<float>(static_cast<int>(i) / points.width);
        points.pixels[i] = {Point(x, y, 0), 1, Normal(0, 0, 1), kSoftLamps + hits.lamp[i], Rgb(1)};
    }
}

// The mean colour of the nine pixels `step` apart, as far as they are out of focus by more.
Rgb mean_of_soft(const SeenPoints& points, int x, int y, int step) {
    const SeenPoint& own = points.pixels[static_cast<size_t>(y * points.width + x)];
    Rgb sum = own.albedo;
    float weights = 1;
    for (int n = 0; n < 9; ++n) {
        const int u = x + (n % 3 - 1) * step;
        const int v = y + (n / 3 - 1) * step;
        if (u < 0 || v < 0 || u >= points.width || v >= points.height) continue;
        const SeenPoint& other = points.pixels[static_cast<size_t>(v * points.width + u)];
        const float blur = std::min(own.blur_px, other.blur_px);
        const float weight = std::clamp(0.25F * blur / static_cast<float>(step) - 0.5F, 0.0F, 1.0F);
        sum += weight * other.albedo;
        weights += weight;
    }
    return sum / weights;
}

// Each pixel's colour becomes the mean over the pixels around it that are out of focus as well,
// within about half of its blur.
void smooth_albedo(SeenPoints& points) {
    const std::vector<SeenPoint>& pixels = points.pixels;
    for (int level = 0; level < kAlbedoLevels; ++level) {
        std::vector<Rgb> smooth(pixels.size());
        for_each_row(points.height, [&](int y) {
            for (int x = 0; x < points.width; ++x) {
                const auto i = static_cast<size_t>(y * points.width + x);
                smooth[i] = mean_of_soft(points, x, y, 1 << level);
            }
        });
        for (size_t i = 0; i < smooth.size(); ++i) points.pixels[i].albedo = smooth[i];
    }
}

}  // namespace

bool has_blur(const Lens& lens, const FirstHits& first_hits) {
    return !lens.is_pinhole() && BlurredTiles(lens, first_hits).any();
}

void find_blur(const Sight& sight,
               const Lens& lens,
               const std::vector<Fixture>& fixtures,
               const FirstHits& first_hits,
               SeenPoints& points,
               WorkWatch& watch) {
    const BlurredTiles tiles(lens, first_hits);
    for_each_blur_pixel(points, watch, [&](int x, int y) {
        if (!tiles.has(x, y)) return;
        const auto i = static_cast<size_t>(y * points.width + x);
        SeenPoint& seen = points.pixels[i];
        const Vec2 raster = Vec2(x, y) + Vec2(0.5F);
        const Blur blur = blur_of(sight, lens, first_hits.depth[i], seen, raster);
        if (!(blur.px > kSharp)) return;
        seen.blur_px = blur.px;
        seen.albedo = blur.albedo;
    });
    even_out(points);
    smooth_albedo(points);
    mark_soft_lamps(fixtures, lens, first_hits, points);
}

}  // namespace dapple
