#include "render/prepare/aim_probes.h"

namespace dapple {

LampPose::LampPose(const Fixture& fixture, double the_lumens)
    : form(fixture.form),
      position(fixture.position),
      frame(fixture_frame(fixture)),
      angles{fixture.beam_angle,
             fixture.field_angle,
             fixture.wide_beam_angle,
             fixture.wide_field_angle},
      size(fixture.form == FixtureForm::kPanel ? fixture.panel_size
                                               : Vec2(fixture.source_diameter)),
      has_file(fixture.photometry.has_value()),
      lumens(the_lumens) {}

bool LampPose::is_same_as(const LampPose& other) const {
    return form == other.form && position == other.position && frame.s == other.frame.s &&
           frame.n == other.frame.n && angles == other.angles && size == other.size &&
           has_file == other.has_file && lumens == other.lumens;
}

const ProbedWindow* LampProbes::find(const Bounds& object) const {
    for (const ProbedWindow& window : windows) {
        if (window.object.low == object.low && window.object.high == object.high) return &window;
    }
    return nullptr;
}

std::vector<LampProbes> poses_of(const Scene& scene, const std::vector<Emitter>& emitters) {
    std::vector<LampProbes> probes;
    for (size_t f = 0; f < emitters.size(); ++f) {
        probes.push_back({LampPose(scene.fixtures[f], emitters[f].lumens()), {}, {}});
    }
    return probes;
}

std::vector<bool> same_lamps(const std::vector<LampProbes>& a, const std::vector<LampProbes>& b) {
    std::vector<bool> same(a.size(), false);
    for (size_t f = 0; f < a.size() && a.size() == b.size(); ++f) {
        same[f] = a[f].pose.is_same_as(b[f].pose);
    }
    return same;
}

}  // namespace dapple
