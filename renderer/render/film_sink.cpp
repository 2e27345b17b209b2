#include "render/film_sink.h"

#include <algorithm>
#include <array>
#include <cmath>

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
    : film_(film), meters_(meters), groups_(groups), seen_(first_hits, lens) {}

// An ellipse in the frame: q = xx dx² + 2 xy dx dy + yy dy² is 1 on its rim.
struct FilmSink::Ellipse {
    float xx = 0, xy = 0, yy = 0;
    Vec2 reach{0};      // half the box around it
    float longest = 0;  // half-axis, px

    // Of pixels in a row, the first one (dx, dy) off the middle.
    RunWeights weights(float dx, float dy) const {
        constexpr RunFloats kSteps{0, 1, 2, 3, 4, 5, 6, 7};
        const RunFloats d = kSteps + dx;
        const RunFloats w = (1.0F - yy * dy * dy) - d * (2 * xy * dy + xx * d);
        return {w > 0.0F ? w : RunFloats{}};
    }
};

// Pixels, the last ones included.
struct FilmSink::Box {
    int left = 0, top = 0, right = 0, bottom = 0;
};

// A splat's weights by runs of pixels, each within a tile and as long as one; in each run those of
// its parts one after the other.
struct FilmSink::Spread {
    int first_group = 0;
    int groups = 0;
    size_t parts = 0;
    std::array<Vec2, kSpectrumSize> middles;
    std::array<Spectrum, kSpectrumSize> luminances;  // times a weight
    std::array<RunWeights, kMostRuns> of;
    std::array<PixelRun, kMostRuns> runs;
    size_t count;  // of runs
    std::array<RunWeights, kSpectrumSize> sums;
    // The one last tested.
    uint32_t plane;
    bool plane_is_seen;
};

FilmSink::Ellipse FilmSink::disc(float radius) {
    const float inverse = 1.0F / square(radius);
    return {inverse, 0, inverse, Vec2(radius), radius};
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
    const float middle2 = 0.5F * (long2 + short2);
    const float differs2 = 0.5F * (long2 - short2) * c2;
    const Vec2 reach(std::sqrt(middle2 + differs2), std::sqrt(middle2 - differs2));
    return {mean + half * c2, half * s2, mean - half * c2, reach, std::sqrt(long2)};
}

// Adds the weights of pixels in the part of a tile that `box` is.
void FilmSink::spread_tile(const Ellipse& e,
                           const SurfacePoint& at,
                           const Box& box,
                           Spread& s) const {
    const int left = box.left / kTile * kTile;
    const uint32_t plane = seen_.plane_of_tile(left, box.top);
    const bool flat = plane != SeenSurfaces::kNotFlat;
    if (flat && plane != s.plane) {
        s.plane = plane;
        s.plane_is_seen = seen_.plane(plane).is(at, e.longest);
    }
    if (flat && !s.plane_is_seen) return;
    const int count = std::min(kTile, film_.width() - left);
    for (int y = box.top; y <= box.bottom; ++y) {
        RunWeights* const row = &s.of[s.count * s.parts];
        RunWeights any{};
        for (size_t k = 0; k < s.parts; ++k) {
            const float dx = static_cast<float>(left) + 0.5F - s.middles[k].x;
            const float dy = static_cast<float>(y) + 0.5F - s.middles[k].y;
            row[k] = e.weights(dx, dy);
            any.v += row[k].v;
        }
        if (any.is_zero()) continue;
        const PixelRun run{left, y};
        film_.fetch(run, s.first_group, s.groups);
        const auto leave_out = [&](int i) {
            for (size_t k = 0; k < s.parts; ++k) row[k].v[i] = 0;
        };
        for (int i = 0; i < count && !flat; ++i) {
            if (any.v[i] > 0 && !seen_.pixel(left + i, y).is(at, e.longest)) leave_out(i);
        }
        for (int i = count; i < kTile; ++i) leave_out(i);  // beyond the frame
        for (size_t k = 0; k < s.parts; ++k) s.sums[k].v += row[k].v;
        s.runs[s.count++] = run;
    }
}

// Within the frame, around the middles of all parts.
FilmSink::Box FilmSink::box_around(const Ellipse& e, const Spread& s) const {
    Vec2 low = s.middles[0];
    Vec2 high = low;
    for (size_t k = 1; k < s.parts; ++k) {
        low = glm::min(low, s.middles[k]);
        high = glm::max(high, s.middles[k]);
    }
    low -= e.reach + 0.5F;
    high += e.reach - 0.5F;
    return {std::max(0, static_cast<int>(std::ceil(low.x))),
            std::max(0, static_cast<int>(std::ceil(low.y))),
            std::min(film_.width() - 1, static_cast<int>(std::floor(high.x))),
            std::min(film_.height() - 1, static_cast<int>(std::floor(high.y)))};
}

// False when there is no room, or a part falls on no pixel that sees the surface.
bool FilmSink::spread(const Ellipse& e, const SurfacePoint& at, Spread& s) const {
    const Box box = box_around(e, s);
    const int rows = std::max(0, box.bottom - box.top + 1);
    const int tiles = std::max(0, box.right / kTile - box.left / kTile + 1);
    if (static_cast<size_t>(rows * tiles) * s.parts > kMostRuns) return false;
    // Tiles of one band of the film together.
    for (int y = box.top; y <= box.bottom; y = (y / kTile + 1) * kTile) {
        const int bottom = std::min(box.bottom, (y / kTile + 1) * kTile - 1);
        for (int x = box.left; x <= box.right; x = (x / kTile + 1) * kTile) {
            spread_tile(e, at, {x, y, box.right, bottom}, s);
        }
    }
    for (size_t k = 0; k < s.parts; ++k) {
        const float sum = s.sums[k].sum();
        if (!(sum > 0)) return false;
        s.luminances[k] *= 1.0F / sum;
    }
    return true;
}

// The ellipse that a splat covers, if it is more than a pixel.
std::optional<FilmSink::Ellipse> FilmSink::covered(const Footprint& footprint) const {
    const float radius = footprint.known ? radii_.least : radii_.unknown;
    if (!(radius > 0 && footprint.most_px > kOnePixel)) return std::nullopt;
    const float most = std::min(footprint.most_px, radii_.most);
    const Ellipse e = footprint.known ? ellipse_of(footprint, std::min(radii_.least, most), most)
                                      : disc(std::min(radius, footprint.most_px));
    if (e.longest < kOnePixel) return std::nullopt;
    return e;
}

void FilmSink::begin(std::span<const SplatPart> parts, int fixture, Spread& s) const {
    const auto f = static_cast<size_t>(fixture);
    s.first_group = groups_.first[f];
    s.groups = groups_.first[f + 1] - s.first_group;
    s.parts = parts.size();
    for (size_t k = 0; k < s.parts; ++k) {
        s.middles[k] = parts[k].raster;
        s.luminances[k] = parts[k].luminance;
        s.sums[k] = RunWeights{};
    }
    s.count = 0;
    s.plane = SeenSurfaces::kNotFlat;
}

glm::ivec2 FilmSink::pixel_of(const SplatPart& part) const {
    return glm::min(glm::ivec2(part.raster), glm::ivec2(film_.width() - 1, film_.height() - 1));
}

void FilmSink::fetch_point(const SplatPart& part, int fixture) const {
    const glm::ivec2 at = pixel_of(part);
    const auto f = static_cast<size_t>(fixture);
    film_.fetch({at.x, at.y}, groups_.first[f], groups_.first[f + 1] - groups_.first[f]);
}

void FilmSink::add_point(const SplatPart& part, int fixture) {
    const glm::ivec2 at = pixel_of(part);
    const auto f = static_cast<size_t>(fixture);
    for (int g = groups_.first[f]; g < groups_.first[f + 1]; ++g) {
        film_.add(at.x, at.y, g, part.luminance);
    }
}

void FilmSink::add(const Spread& s) {
    film_.add_spread({s.runs.data(), s.count},
                     {s.of.data(), s.count * s.parts},
                     s.first_group,
                     s.groups,
                     {s.luminances.data(), s.parts});
}

// Adds a splat when the next but one has been laid out: by then its part of the film, asked for
// when it was laid out, has come from memory.
class FilmSink::LateSplats final : public LightSink {
  public:
    explicit LateSplats(FilmSink& sink) : sink_(sink) {}
    LateSplats(const LateSplats&) = delete;
    LateSplats& operator=(const LateSplats&) = delete;
    ~LateSplats() override {
        for (size_t i = next_ - waiting_; i < next_; ++i) sink_.add(spreads_[i % kLate]);
    }

    void add_splat(std::span<const SplatPart> parts,
                   const Footprint& footprint,
                   const SurfacePoint& at,
                   int fixture) override {
        const auto seen = [&](const SplatPart& part) { return sink_.is_in_frame(part.raster); };
        if (std::all_of(parts.begin(), parts.end(), seen)) {
            add_seen(parts, footprint, at, fixture);
            return;
        }
        // Some were dispersed out of the frame.
        std::array<SplatPart, kSpectrumSize> within;
        const auto end = std::copy_if(parts.begin(), parts.end(), within.begin(), seen);
        add_seen({within.begin(), end}, footprint, at, fixture);
    }
    void add_reading(int meter, int fixture, const Spectrum& lux) override {
        sink_.add_reading(meter, fixture, lux);
    }

  private:
    static constexpr size_t kLate = 2;

    void add_seen(std::span<const SplatPart> parts,
                  const Footprint& footprint,
                  const SurfacePoint& at,
                  int fixture) {
        const std::optional<Ellipse> e = sink_.covered(footprint);
        if (parts.size() > 1 && e && lay_out(parts, *e, at, fixture)) return;
        if (!e) {
            for (const SplatPart& part : parts) sink_.fetch_point(part, fixture);
        }
        for (const SplatPart& part : parts) {
            if (!e || !lay_out({&part, 1}, *e, at, fixture)) sink_.add_point(part, fixture);
        }
    }
    bool lay_out(std::span<const SplatPart> parts,
                 const Ellipse& e,
                 const SurfacePoint& at,
                 int fixture) {
        Spread& s = room();
        sink_.begin(parts, fixture, s);
        if (!sink_.spread(e, at, s)) return false;
        ++next_;
        ++waiting_;
        return true;
    }
    Spread& room() {
        if (waiting_ == kLate) {
            sink_.add(spreads_[next_ % kLate]);
            --waiting_;
        }
        return spreads_[next_ % kLate];
    }

    FilmSink& sink_;
    std::array<Spread, kLate> spreads_;
    size_t next_ = 0;  // splats laid out so far
    size_t waiting_ = 0;
};

void FilmSink::add_splat(std::span<const SplatPart> parts,
                         const Footprint& footprint,
                         const SurfacePoint& at,
                         int fixture) {
    LateSplats(*this).add_splat(parts, footprint, at, fixture);
}

std::unique_ptr<LightSink> FilmSink::for_some_walks() {
    return std::make_unique<LateSplats>(*this);
}

void FilmSink::add_pixel(int pixel, int fixture, const Spectrum& luminance) {
    const auto f = static_cast<size_t>(fixture);
    const int x = pixel % film_.width();
    const int y = pixel / film_.width();
    for (int g = groups_.first[f]; g < groups_.first[f + 1]; ++g) {
        film_.add_alone(x, y, g, luminance);
    }
}

}  // namespace dapple
