#include "plausible/bodies/crossings.h"

#include <algorithm>
#include <array>

#include "base/parallel.h"

namespace dapple {

namespace {

constexpr int kMostSkipped = 64;  // surfaces along one ray
constexpr int64_t kChordsPerBlock = 256;

// From `a` to `b`, in metres.
Ray ray_between(const Point& a, const Point& b) {
    const float length = glm::length(b - a);
    return {a, (b - a) / length, 0.0F, length};
}

// Moves the ray's origin to just behind the surface. False if nothing of the ray is left.
bool continue_behind(Ray& ray, const SurfacePoint& at) {
    const Point next = offset_origin(at, ray.direction);
    ray.t_max -= glm::dot(next - ray.origin, ray.direction);
    ray.origin = next;
    return ray.t_max > 0;
}

}  // namespace

bool first_counting(
    const World& world, Ray ray, const Counts& counts, Thing& thing, SurfacePoint& at) {
    for (int i = 0; i < kMostSkipped; ++i) {
        Hit hit;
        if (!world.closest(ray, hit)) return false;
        at = world.surface_at(ray, hit);
        thing = world.thing_at(at);
        if (counts(thing, at)) return true;
        if (!continue_behind(ray, at)) return false;
    }
    return false;
}

bool crosses(const World& world, const BodyCage& cage, const Vec3& by, const Counts& counts) {
    Thing thing;
    SurfacePoint at;
    // In large steps through the cage, so that a crossing on one side is found soon.
    constexpr size_t kStride = 31;
    for (size_t first = 0; first < kStride; ++first) {
        for (size_t i = first; i < cage.size(); i += kStride) {
            const Ray ray = ray_between(cage[i].a + by, cage[i].b + by);
            if (first_counting(world, ray, counts, thing, at)) return true;
        }
    }
    return false;
}

std::map<Thing, Crossed> things_crossed(const World& world,
                                        const BodyCage& cage,
                                        const Counts& counts) {
    const auto size = static_cast<int64_t>(cage.size());
    const int64_t blocks = (size + kChordsPerBlock - 1) / kChordsPerBlock;
    std::vector<std::map<Thing, Crossed>> of_block(static_cast<size_t>(blocks));
    parallel_blocks(size, kChordsPerBlock, [&](int64_t first, int64_t last) {
        std::map<Thing, Crossed>& found = of_block[static_cast<size_t>(first / kChordsPerBlock)];
        for (int64_t i = first; i < last; ++i) {
            const Chord& chord = cage[static_cast<size_t>(i)];
            for (const Ray& ray : {ray_between(chord.a, chord.b), ray_between(chord.b, chord.a)}) {
                Thing thing;
                SurfacePoint at;
                if (!first_counting(world, ray, counts, thing, at)) break;
                Crossed& crossed = found[thing];
                ++crossed.chords;
                crossed.material = at.material;
            }
        }
    });
    std::map<Thing, Crossed> all;
    for (const auto& found : of_block) {
        for (const auto& [thing, crossed] : found) {
            all[thing].chords += crossed.chords;
            all[thing].material = crossed.material;
        }
    }
    return all;
}

std::vector<Thing> things_around(const World& world, const Point& point) {
    // No ray is along an edge of a box.
    static const std::array kWays = {glm::normalize(Vec3(0.53F, 0.79F, 0.31F)),
                                     glm::normalize(Vec3(-0.67F, 0.17F, 0.72F)),
                                     glm::normalize(Vec3(0.23F, -0.41F, -0.88F))};
    std::map<Thing, int> votes;
    for (const Direction& way : kWays) {
        std::map<Thing, int> leaves;
        Ray ray{point, way, 0.0F, kInfinity};
        for (int i = 0; i < kMostSkipped; ++i) {
            Hit hit;
            if (!world.closest(ray, hit)) break;
            const SurfacePoint at = world.surface_at(ray, hit);
            const Thing thing = world.thing_at(at);
            leaves[thing] += glm::dot(at.geometric, way) > 0 ? 1 : -1;
            if (!continue_behind(ray, at)) break;
        }
        for (const auto& [thing, count] : leaves) votes[thing] += count > 0 ? 1 : 0;
    }
    std::vector<Thing> around;
    for (const auto& [thing, count] : votes) {
        const bool is_body = thing.kind == ThingKind::kGlass || thing.kind == ThingKind::kColumn ||
                             thing.kind == ThingKind::kFigure || thing.kind == ThingKind::kHousing;
        if (is_body && count >= 2) around.push_back(thing);
    }
    return around;
}

}  // namespace dapple
