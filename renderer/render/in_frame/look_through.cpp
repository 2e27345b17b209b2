#include "render/in_frame/look_through.h"

#include <algorithm>

#include "render/in_frame/find_props.h"

namespace dapple {

namespace {

constexpr int kMostSurfaces = 64;      // that one ray is followed through
constexpr float kRefracts = 0.9999F;   // as a random number: chooses refraction
constexpr float kOnFloor = 0.02F;      // m, between a cable and the surface that it lies on
constexpr float kCableRadius = 5e-3F;  // m

// A part that is seen already counts the way it was seen first: the back of a glass is seen through
// its front.
void add_once(const SeenPart& part, std::vector<SeenPart>& seen) {
    const bool is_known = std::any_of(seen.begin(), seen.end(), [&](const SeenPart& other) {
        return other.kind == part.kind && other.index == part.index;
    });
    if (!is_known) seen.push_back(part);
}

float distance_on_floor(const Point& p, const CableRun& cable) {
    const Vec2 from(cable.from.x, cable.from.z);
    const Vec2 along = Vec2(cable.to.x, cable.to.z) - from;
    const Vec2 to_p = Vec2(p.x, p.z) - from;
    const float length2 = glm::dot(along, along);
    const float t = length2 > 0 ? std::clamp(glm::dot(to_p, along) / length2, 0.0F, 1.0F) : 0.0F;
    return glm::length(to_p - t * along);
}

}  // namespace

PixelLooker::PixelLooker(const Setup& setup, const std::vector<CableRun>& cables)
    : setup_(setup),
      cables_(cables),
      props_(find_props(setup.scene, setup.world)),
      wavelengths_(make_pass_wavelengths(0, 0)),
      materials_(setup.materials, wavelengths_),
      stage_(setup.stage(materials_, no_light_walks(setup), 0, 0)) {}

void PixelLooker::add_thing(const SurfacePoint& at,
                            SeenWay way,
                            std::vector<SeenPart>& seen) const {
    const Thing thing = setup_.world.thing_at(at);
    const auto index = static_cast<size_t>(thing.index);
    switch (thing.kind) {
        case ThingKind::kGlass:
            if (props_[index]) return;
            return add_once({InFrameKind::kGlass, thing.index, way}, seen);
        case ThingKind::kBoard: {
            const BoardKind kind = setup_.scene.boards[index].kind;
            if (kind == BoardKind::kDoor) return;
            const InFrameKind word = kind == BoardKind::kFlag       ? InFrameKind::kFlag
                                     : kind == BoardKind::kDiffuser ? InFrameKind::kCloth
                                                                    : InFrameKind::kBounce;
            return add_once({word, thing.index, way}, seen);
        }
        case ThingKind::kLamp:
            if (setup_.scene.fixtures[index].is_window) return;
            return add_once({InFrameKind::kFixture, thing.index, way}, seen);
        case ThingKind::kHousing:
            return add_once({InFrameKind::kHousing, thing.index, way}, seen);
        case ThingKind::kStand:
            return add_once({InFrameKind::kStand, thing.index, way}, seen);
        case ThingKind::kRoom:
        case ThingKind::kColumn:
        case ThingKind::kFigure:
            return;
    }
}

void PixelLooker::add_cables(const SurfacePoint& at,
                             float half_pixel,
                             SeenWay way,
                             std::vector<SeenPart>& seen) const {
    for (size_t i = 0; i < cables_.size(); ++i) {
        const float floor = std::min(cables_[i].from.y, cables_[i].to.y);
        const float highest = std::max(cables_[i].from.y, cables_[i].to.y);
        if (at.position.y < floor - kOnFloor || at.position.y > highest + kOnFloor) continue;
        if (distance_on_floor(at.position, cables_[i]) > kCableRadius + half_pixel) continue;
        add_once({InFrameKind::kCable, static_cast<int>(i), way}, seen);
    }
}

// The holes of a stencil. Cloth is seen, also where it lets light pass.
bool PixelLooker::passes_straight(const Vertex& vertex) const {
    if (vertex.is_lamp() || is_delta(vertex.bsdf) || vertex.smooth_glass()) return false;
    const Material& material = setup_.scene.materials[static_cast<size_t>(vertex.at.material)];
    return material.kind != MaterialKind::kSheet && pass_probability(vertex) > 0.5F;
}

// Continues the walk behind a smooth surface, or where a mirror reflects it. Nothing is left to
// chance: light is never reflected where it can pass, and no walk ends for lack of light.
bool PixelLooker::look_on(const Vertex& vertex, Walk& walk, SeenWay& way) const {
    const Material& material = setup_.scene.materials[static_cast<size_t>(vertex.at.material)];
    if (material.kind == MaterialKind::kConductor) {
        way = SeenWay::kInMirror;
        const Direction wi = glm::reflect(walk.ray.direction, vertex.at.shading);
        walk.ray = Ray{offset_origin(vertex.at, wi), wi, 0.0F, kInfinity};
        walk.edge_length = 0;
        return true;
    }
    if (way == SeenWay::kDirect) way = SeenWay::kThroughGlass;
    if (material.kind == MaterialKind::kThinGlass) {
        walk.ray.origin = offset_origin(vertex.at, walk.ray.direction);
        walk.edge_length = 0;
        return true;
    }
    RandomStream random(0, 0, 0, Purpose::kPilot);
    walk.light.throughput = Spectrum(static_cast<float>(kSpectrumSize));
    const Vec3 u(0.5F, 0.5F, kRefracts);
    return scatter(stage_, walk, vertex, Carrying::kRadiance, u, random) != ScatterResult::kEnded;
}

void PixelLooker::look(const Vec2& raster, std::vector<SeenPart>& seen) const {
    seen.clear();
    Walk walk;
    walk.ray = setup_.lens.sample_ray(raster, 0.5F, 0.5F).ray;
    walk.ray.origin = setup_.lens.position();
    walk.media = stage_.start.lens;
    walk.light.hero = kSpectrumSize / 2;
    SeenWay way = SeenWay::kDirect;
    float length = 0;
    Vertex vertex;
    for (int i = 0; i < kMostSurfaces; ++i) {
        const bool made = find_next_vertex(stage_, walk, vertex);
        if (walk.edge_length == kInfinity) return;  // there is nothing
        length += walk.edge_length;
        const bool is_black = !made;
        if (!is_black && passes_straight(vertex)) {
            walk.ray.origin = offset_origin(vertex.at, walk.ray.direction);
            walk.edge_length = 0;
            continue;
        }
        add_thing(vertex.at, way, seen);
        if (is_black || vertex.is_lamp() || !is_delta(vertex.bsdf)) {
            const float half_pixel = 0.5F * setup_.lens.pixel_width_at(length);
            return add_cables(vertex.at, half_pixel, way, seen);
        }
        if (!look_on(vertex, walk, way)) return;
    }
}

}  // namespace dapple
