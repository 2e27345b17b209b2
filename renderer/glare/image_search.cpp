#include "glare/image_search.h"

#include <algorithm>
#include <optional>

#include "base/parallel.h"
#include "glare/gloss_image.h"

namespace dapple {

namespace {

constexpr double kSpacing = 0.5 * kPi / 180;      // rad, between the rays of the search
constexpr double kWidestSearch = 78 * kPi / 180;  // from the axis
constexpr float kCapture = 1.6F;                  // of the rays' spacing
constexpr size_t kMostImages = 12;                // of one lamp over the same surfaces
constexpr int kMostTurns = 8;
constexpr float kTurn = 2e-4F;        // rad, of the differences
constexpr float kNearEnough = 2e-3F;  // m beside the lamp's middle
constexpr double kMostGain = 400;     // of curved glass over open air; more is a caustic's point

// A ray that passed near a lamp.
struct Candidate {
    int fixture = 0;
    FirstSmooth first = FirstSmooth::kPasses;
    uint64_t surfaces = 0;
    Direction direction{0, 0, 1};
    float miss = 0;  // over the way's length
};

// How the way's part passes a lamp.
struct Pass {
    Vec3 beside{0};    // m, from the lamp's middle to the nearest point of the part
    float length = 0;  // m, of the whole way to there
};

std::optional<Pass> pass_by(const WayPart& part, const Point& lamp, float spare) {
    const float along = glm::dot(lamp - part.from, part.direction);
    if (!(along > 0) || along > part.length + spare) return std::nullopt;
    return Pass{part.from + along * part.direction - lamp, part.before + along};
}

class ImageSearch {
  public:
    ImageSearch(const Setup& setup, const SmoothWays& ways) : setup_(setup), ways_(ways) {}

    std::vector<Candidate> sweep() const {
        const int half = static_cast<int>(kWidestSearch / kSpacing);
        const int across = 2 * half + 1;
        std::vector<std::vector<Candidate>> rows(static_cast<size_t>(across));
        parallel_blocks(across, 4, [&](int64_t first, int64_t last) {
            std::vector<WayPart> parts;
            for (int64_t j = first; j < last; ++j) {
                for (int i = -half; i <= half; ++i) {
                    look(i * kSpacing,
                         static_cast<double>(j - half) * kSpacing,
                         parts,
                         rows[static_cast<size_t>(j)]);
                }
            }
        });
        std::vector<Candidate> all;
        for (const auto& row : rows) all.insert(all.end(), row.begin(), row.end());
        return all;
    }

    // Turns the ray until it meets the lamp's middle. Nothing if it never does.
    std::optional<LensLight> settle(const Candidate& start) const;

  private:
    Direction direction_of(double x, double y) const {  // azimuthal, equal angles
        const double angle = std::hypot(x, y);
        const double s = angle > 0 ? std::sin(angle) / angle : 1;
        return setup_.lens.frame().to_world(Vec3(s * x, s * y, std::cos(angle)));
    }
    float radius_of(int fixture) const {
        return setup_.emitters[static_cast<size_t>(fixture)].radius();
    }
    void look(double x, double y, std::vector<WayPart>& parts, std::vector<Candidate>& found) const;
    LensLight light_of(const Candidate& c,
                       const WayPart& part,
                       const Direction& d,
                       float length) const {
        LensLight light;
        light.fixture = c.fixture;
        light.way = part.way;
        light.mirror = part.mirror;
        light.place = length * setup_.lens.frame().to_local(d);
        return light;
    }
    // A sharp image; `det` as in E127.
    std::optional<LensLight> image_of(const Candidate& c,
                                      const WayPart& part,
                                      const Direction& d,
                                      float length,
                                      double det) const;
    // What a gloss shows.
    std::optional<LensLight> blur_of(const Candidate& c,
                                     const WayPart& part,
                                     const Direction& d,
                                     float length) const;
    // How the way of this direction passes the lamp after the same surfaces.
    std::optional<Pass> pass_of(const Candidate& c, const Direction& d, WayPart* part) const;

    const Setup& setup_;
    const SmoothWays& ways_;
};

void ImageSearch::look(double x,
                       double y,
                       std::vector<WayPart>& parts,
                       std::vector<Candidate>& found) const {
    if (std::hypot(x, y) > kWidestSearch) return;
    const Direction direction = direction_of(x, y);
    for (const FirstSmooth first : {FirstSmooth::kPasses, FirstSmooth::kReflects}) {
        ways_.follow(direction, first, parts);
        if (parts.size() < 2) return;  // nothing smooth
        // A mirror reflects both ways alike.
        const bool is_mirror = first == FirstSmooth::kPasses && parts[1].way == SeenWay::kInMirror;
        for (const WayPart& part : parts) {
            if (part.way == SeenWay::kDirect) continue;
            for (size_t f = 0; f < setup_.emitters.size(); ++f) {
                const Emitter& lamp = setup_.emitters[f];
                const float radius = lamp.radius();
                const auto pass = pass_by(part, lamp.position(), radius + 0.01F);
                if (!pass || setup_.scene.fixtures[f].is_window) continue;
                const float miss = glm::length(pass->beside);
                const float reach = kCapture * static_cast<float>(kSpacing) * pass->length + radius;
                if (miss > reach) continue;
                found.push_back(
                    {static_cast<int>(f), first, part.surfaces, direction, miss / pass->length});
            }
        }
        if (is_mirror) return;
    }
}

std::optional<Pass> ImageSearch::pass_of(const Candidate& c,
                                         const Direction& d,
                                         WayPart* found) const {
    std::vector<WayPart> parts;
    ways_.follow(d, c.first, parts);
    const Emitter& lamp = setup_.emitters[static_cast<size_t>(c.fixture)];
    for (const WayPart& part : parts) {
        if (part.way == SeenWay::kDirect || part.surfaces != c.surfaces) continue;
        const auto pass = pass_by(part, lamp.position(), lamp.radius() + 0.01F);
        if (!pass) return std::nullopt;
        if (found) *found = part;
        return pass;
    }
    return std::nullopt;
}

std::optional<LensLight> ImageSearch::image_of(
    const Candidate& c, const WayPart& part, const Direction& d, float length, double det) const {
    const Emitter& lamp = setup_.emitters[static_cast<size_t>(c.fixture)];
    LensLight light = light_of(c, part, d, length);
    light.lux = intensity_towards(setup_, c.fixture, part.direction) / det;
    light.passed = part.passed;
    light.in_film = !lamp.is_point();
    if (light.in_film) light.radius = static_cast<double>(lamp.radius()) / std::sqrt(det);
    if (!(light.lux > 0)) return std::nullopt;
    return light;
}

std::optional<LensLight> ImageSearch::blur_of(const Candidate& c,
                                              const WayPart& part,
                                              const Direction& d,
                                              float length) const {
    const auto blur = see_in_gloss(setup_, ways_, c.fixture, c.first, d);
    if (!blur) return std::nullopt;
    LensLight light = light_of(c, part, blur->middle, length);
    light.lux = static_cast<double>(blur->lux.mean());
    light.passed = blur->lux / blur->lux.mean();
    light.radius = blur->radius;
    light.in_film = true;
    return light;
}

std::optional<LensLight> ImageSearch::settle(const Candidate& start) const {
    Direction d = start.direction;
    const Emitter& lamp = setup_.emitters[static_cast<size_t>(start.fixture)];
    for (int turn = 0; turn < kMostTurns; ++turn) {
        const Frame around(d);
        WayPart part;
        const auto here = pass_of(start, d, &part);
        const Direction du = glm::normalize(d + kTurn * around.s);
        const Direction dv = glm::normalize(d + kTurn * around.t);
        const auto at_u = here ? pass_of(start, du, nullptr) : std::nullopt;
        const auto at_v = here ? pass_of(start, dv, nullptr) : std::nullopt;
        if (!at_u || !at_v) return std::nullopt;
        const Frame beside(part.direction);
        const auto flat = [&](const Vec3& v) {
            return DVec2(glm::dot(v, beside.s), glm::dot(v, beside.t));
        };
        const DVec2 ju = flat(at_u->beside - here->beside) / static_cast<double>(kTurn);
        const DVec2 jv = flat(at_v->beside - here->beside) / static_cast<double>(kTurn);
        const double det = ju.x * jv.y - ju.y * jv.x;
        const double open = static_cast<double>(here->length) * static_cast<double>(here->length);
        if (std::abs(det) * kMostGain < open) return std::nullopt;
        if (glm::length(here->beside) < std::max(kNearEnough, 0.2F * lamp.radius())) {
            return part.gloss > 0 ? blur_of(start, part, d, here->length)
                                  : image_of(start, part, d, here->length, std::abs(det));
        }
        const DVec2 f = flat(here->beside);
        const double a = -(f.x * jv.y - f.y * jv.x) / det;
        const double b = -(ju.x * f.y - ju.y * f.x) / det;
        d = glm::normalize(d + static_cast<float>(a) * around.s + static_cast<float>(b) * around.t);
    }
    return std::nullopt;
}

bool is_same_way(const Candidate& a, const Candidate& b) {
    return a.fixture == b.fixture && a.first == b.first && a.surfaces == b.surfaces;
}

}  // namespace

void find_images(const Setup& setup, const SmoothWays& ways, std::vector<LensLight>& lights) {
    const ImageSearch search(setup, ways);
    std::vector<Candidate> candidates = search.sweep();
    std::stable_sort(candidates.begin(), candidates.end(), [](const auto& a, const auto& b) {
        return a.miss < b.miss;
    });
    std::vector<Candidate> tried;
    std::vector<LensLight> found;
    for (const Candidate& c : candidates) {
        size_t like = 0;
        bool is_near = false;
        for (const Candidate& other : tried) {
            if (!is_same_way(c, other)) continue;
            ++like;
            is_near = is_near ||
                      glm::length(c.direction - other.direction) < 4 * static_cast<float>(kSpacing);
        }
        if (is_near || like >= kMostImages) continue;
        tried.push_back(c);
        const auto light = search.settle(c);
        if (!light) continue;
        const bool is_known = std::any_of(found.begin(), found.end(), [&](const LensLight& other) {
            return other.fixture == light->fixture &&
                   glm::length(glm::normalize(other.place) - glm::normalize(light->place)) < 1e-3F;
        });
        if (!is_known) found.push_back(*light);
    }
    lights.insert(lights.end(), found.begin(), found.end());
}

}  // namespace dapple
