#include "plausible/light/lit_through.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "base/parallel.h"
#include "plausible/beams/sight_lines.h"
#include "plausible/light/quick_light.h"

namespace dapple {

namespace {

constexpr std::array<Vec2, 5> kFacePoints = {
    Vec2(0.5F, 0.5F), Vec2(0.1F, 0.1F), Vec2(0.9F, 0.1F), Vec2(0.1F, 0.9F), Vec2(0.9F, 0.9F)};
constexpr double kLeastShare = 0.1;   // of the direct light
constexpr double kLeastOfPeak = 0.1;  // of the lamp's peak candela: its field
constexpr float kOffLines = 1e-3F;    // m, from both ends
constexpr int64_t kPixelsPerBlock = 256;
constexpr float kRim = 0.15F;  // of the radius of a ball around the thing
constexpr int kRimLines = 8;
constexpr int kBand = 2;  // px

// A ball around the thing.
struct Ball {
    Point middle{0};
    float radius = 0;
};

Ball ball_around(const std::vector<Point>& corners) {
    Ball ball;
    if (corners.empty()) return ball;
    Bounds bounds;
    for (const Point& p : corners) bounds.add(p);
    ball.middle = bounds.centre();
    for (const Point& p : corners) {
        ball.radius = std::max(ball.radius, glm::length(p - ball.middle));
    }
    return ball;
}

bool is_near_line(const Ball& ball, const Point& from, const Point& to, float beside) {
    const Vec3 way = to - from;
    const float along = glm::dot(ball.middle - from, way) / glm::dot(way, way);
    const Point nearest = from + std::clamp(along, 0.0F, 1.0F) * way;
    return glm::length(ball.middle - nearest) <= ball.radius + beside;
}

bool is_in_field(const Emitter& lamp, const Point& p) {
    const double candela = static_cast<double>(lamp.candela(glm::normalize(p - lamp.position())));
    return candela >= kLeastOfPeak * lamp.peak_candela();
}

enum class Line { kClear, kThrough, kStopped };

// Which lamps shine through the thing, as bits, and whether one of them does so in part.
struct Lamps {
    uint64_t through = 0;  // lamp i has bit i modulo 64
    bool in_part = false;
    bool operator==(const Lamps&) const = default;
};

class LinesThrough {
  public:
    LinesThrough(const StagedSet& set, const Thing& thing)
        : set_(set), thing_(thing), ball_(ball_around(set.world.corners_of(thing))), light_(set) {}

    Lamps lamps_of(const LitPlace& place) const {
        Lamps lamps;
        std::optional<double> all;  // direct light, lx
        for (size_t i = 0; i < light_.emitters().size(); ++i) {
            const Emitter& lamp = light_.emitters()[i];
            if (!(lamp.lumens() > 0) || !lamp.may_reach(place.position)) continue;
            if (!is_near_line(ball_, place.position, lamp.position(), lamp.radius())) continue;
            if (!is_in_field(lamp, place.position)) continue;
            int through = 0;
            int clear = 0;
            for (const Vec2& u : kFacePoints) {
                const Line line = line_to(i, place, u);
                through += line == Line::kThrough ? 1 : 0;
                clear += line == Line::kClear ? 1 : 0;
            }
            if (through == 0) continue;
            if (!all) all = light_.direct(place);
            if (light_.direct_of(i, place) < kLeastShare * *all) continue;
            lamps.in_part =
                lamps.in_part || clear > 0 || is_through_rim(place.position, lamp.position());
            lamps.through |= uint64_t{1} << (i % 64);
        }
        return lamps;
    }

    // Whether the lens sees the point through the thing.
    bool is_behind(const Point& p) const {
        const Point& lens = set_.scene.camera.position;
        return is_near_line(ball_, p, lens, 0) && line_between(p, lens, -1) == Line::kThrough;
    }

  private:
    // Whether a line beside the one from `from` to `to` misses the thing.
    bool is_through_rim(const Point& from, const Point& to) const {
        const Frame frame(glm::normalize(to - from));
        const float middle = glm::dot(ball_.middle - from, frame.n);
        for (int i = 0; i < kRimLines; ++i) {
            const float turn = 2 * kPiF * static_cast<float>(i) / kRimLines;
            const Vec3 beside = std::cos(turn) * frame.s + std::sin(turn) * frame.t;
            const Point by = from + middle * frame.n + kRim * ball_.radius * beside;
            if (!meets_thing(from, glm::normalize(by - from), middle + 2 * ball_.radius)) {
                return true;
            }
        }
        return false;
    }

    bool meets_thing(const Point& from, const Direction& way, float length) const {
        const Counts counts = [&](const Thing& met, const SurfacePoint&) { return met == thing_; };
        Thing met;
        SurfacePoint at;
        return first_counting(
            set_.world, {from + kOffLines * way, way, 0.0F, length}, counts, met, at);
    }

    Line line_to(size_t lamp, const LitPlace& place, const Vec2& u) const {
        LampLight light;
        if (!light_.emitters()[lamp].sample_towards(place.position, u.x, u.y, light)) {
            return Line::kStopped;
        }
        if (glm::dot(light.position - place.position, place.normal) <= 0) return Line::kStopped;
        return line_between(place.position, light.position, static_cast<int>(lamp));
    }

    Line line_between(const Point& from, const Point& to, int lamp) const {
        const float length = glm::length(to - from);
        if (length < 3 * kOffLines) return Line::kStopped;
        bool is_through = false;
        const Counts counts = [&](const Thing& met, const SurfacePoint& at) {
            is_through = is_through || met == thing_;
            return !(met.kind == ThingKind::kStand && met.index == lamp) &&
                   blocks_light(set_.scene, at);
        };
        const Direction way = (to - from) / length;
        Thing met;
        SurfacePoint at;
        const Ray ray{from + kOffLines * way, way, 0.0F, length - 2 * kOffLines};
        if (first_counting(set_.world, ray, counts, met, at)) return Line::kStopped;
        return is_through ? Line::kThrough : Line::kClear;
    }

    StagedSet set_;
    Thing thing_;
    Ball ball_;
    QuickLight light_;
};

bool is_made_of(const Scene& scene, const Thing& thing, int32_t surface) {
    if (thing.kind != ThingKind::kGlass || surface < 0) return false;
    const GlassObject& glass = scene.glasses[static_cast<size_t>(thing.index)];
    return surface == glass.material || surface == glass.outer_face ||
           surface == glass.inner_face || surface == glass.liquid || surface == glass.air;
}

// The pixels with an outline through them or near: where the lamps are not those of a neighbour.
std::vector<char> band_of(const std::vector<Lamps>& lamps,
                          const std::vector<char>& is_asked,
                          int width) {
    const int height = static_cast<int>(lamps.size()) / width;
    std::vector<char> is_banded(lamps.size(), 0);
    const auto mark_around = [&](int x, int y) {
        for (int v = std::max(0, y - kBand); v <= std::min(height - 1, y + kBand); ++v) {
            for (int u = std::max(0, x - kBand); u <= std::min(width - 1, x + kBand); ++u) {
                is_banded[static_cast<size_t>(v * width + u)] = 1;
            }
        }
    };
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            const auto i = static_cast<size_t>(y * width + x);
            if (!is_asked[i]) continue;
            const auto differs = [&](size_t other) {
                return is_asked[other] && lamps[i] != lamps[other];
            };
            const bool is_edge = (x + 1 < width && differs(i + 1)) ||
                                 (y + 1 < height && differs(i + static_cast<size_t>(width)));
            if (is_edge || lamps[i].in_part) mark_around(x, y);
        }
    }
    return is_banded;
}

}  // namespace

std::vector<char> find_lit_through(const StagedSet& set,
                                   const Thing& thing,
                                   const FirstHits& hits,
                                   const SeenPoints& seen,
                                   std::span<const int32_t> pixels) {
    const LinesThrough lines(set, thing);
    std::vector<Lamps> lamps(seen.pixels.size());
    std::vector<char> is_asked(seen.pixels.size(), 0);
    const auto count = static_cast<int64_t>(pixels.size());
    parallel_blocks(count, kPixelsPerBlock, [&](int64_t first, int64_t last) {
        for (int64_t k = first; k < last; ++k) {
            const auto i = static_cast<size_t>(pixels[static_cast<size_t>(k)]);
            const SeenPoint& at = seen.pixels[i];
            if (at.surface < 0 || is_made_of(set.scene, thing, hits.surface[i])) continue;
            if (lines.is_behind(at.position)) continue;
            is_asked[i] = 1;
            lamps[i] = lines.lamps_of({at.position, at.normal});
        }
    });
    std::vector<char> lit = band_of(lamps, is_asked, seen.width);
    for (size_t i = 0; i < lit.size(); ++i) {
        lit[i] = is_asked[i] && lamps[i].through != 0 && !lit[i] ? 1 : 0;
    }
    return lit;
}

}  // namespace dapple
