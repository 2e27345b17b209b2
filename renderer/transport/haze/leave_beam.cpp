#include "transport/haze/leave_beam.h"

#include "transport/wavelength_parts.h"

namespace dapple {

namespace {

// In radii of a beam: how far apart the wavelengths of a walk may be for it to stand for all of
// them, and how far a wavelength may be from its place.
constexpr float kMostSpan = 8;
constexpr float kMostOff = 0.6F;

// How far apart the outermost wavelengths are at the end where they are farther, m. As in
// DispersedSplat, this must not depend on the hero.
float dispersed_span(const Stage& stage, const WalkRay& ray) {
    if (!ray.before.light.monochromatic) return 0;
    if (!ray.after || !ray.after->is_known()) return kInfinity;
    return stage.wavelength_coordinate.span *
           std::max(glm::length(ray.dispersed_before), glm::length(ray.after->dispersion()));
}

}  // namespace

bool leaves_beam(const Stage& stage, const LightWalkStart& start, const Walk& walk) {
    if (!stage.haze || stage.walks.beams.empty() || !walk.media.empty()) return false;
    const int leaving = stage.walks.beams[static_cast<size_t>(start.fixture)];
    return start.index < leaving && walk.history.began_smooth() && walk.edge <= stage.max_bounces;
}

void leave_beam(const Stage& stage,
                const LightWalkStart& start,
                const WalkRay& ray,
                BeamList& beams) {
    const auto fixture = static_cast<size_t>(start.fixture);
    const float per_leaving =
        stage.light_walks(fixture) / static_cast<float>(stage.walks.beams[fixture]);
    const CarriedLight& light = ray.before.light;
    const float lumens = start.lumens * per_leaving;
    Beam beam;
    beam.origin = ray.before.ray.origin;
    beam.direction = ray.before.ray.direction;
    beam.length = ray.length;
    beam.fixture = static_cast<int16_t>(start.fixture);
    beam.edge = static_cast<int16_t>(ray.before.edge);
    const float span = dispersed_span(stage, ray);
    if (!(span < kMostSpan * stage.beam_radius)) {
        beam.flux = PackedSpectrum(light.throughput * lumens);
        beams.push_back(beam);
        return;
    }
    const int parts = wavelength_parts(span, kMostOff * stage.beam_radius);
    const Point end = beam.origin + beam.length * beam.direction;
    const auto leave_part = [&](const Spectrum& part, float from_hero) {
        Beam moved = beam;
        if (parts > 1) {
            moved.origin += from_hero * ray.dispersed_before;
            const Vec3 way = end + from_hero * ray.after->dispersion() - moved.origin;
            moved.length = glm::length(way);
            if (!(moved.length > 0)) return;
            moved.direction = way / moved.length;
        }
        moved.flux = PackedSpectrum(part);
        beams.push_back(moved);
    };
    visit_wavelength_parts(
        stage.wavelength_coordinate, light.hero, parts, light.undispersed * lumens, leave_part);
}

}  // namespace dapple
