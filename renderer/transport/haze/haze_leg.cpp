#include "transport/haze/haze_leg.h"

#include <cmath>

#include "transport/haze/beam_map.h"
#include "transport/haze/lamp_choice.h"

namespace dapple {

namespace {

// Lamps that a leg asks: one that the lens sees directly or through smooth glass, and any later
// one.
constexpr float kLampsSeen = 2;
constexpr float kLampsLater = 1;

// Next-event estimation of one lamp from a place on the leg (E96):
//   L = I/d² σ(t) p(θ) T(leg) T(to the lamp) / p(t)
void add_lamp_in_haze(const Stage& stage,
                      SensorWalk& sensor,
                      const HazeLeg& leg,
                      const LampOnLeg& lamp,
                      const std::array<float, 3>& u,
                      Spectrum& sum) {
    const PlaceOnLeg place = draw_place(leg, lamp, u[0]);
    const float scattered = leg.way.extinction(place.t) * leg.way.transmittance(place.t);
    if (!(scattered > 0 && place.pdf > 0)) return;
    Vertex at;
    at.at.position = leg.origin + place.t * leg.direction;
    const std::optional<DirectLight> direct =
        sample_direct_light_in_haze(stage, sensor.walk, at, lamp.fixture, {u[1], u[2]});
    if (!direct) return;
    const LampLight& light = direct->light;
    const float phase =
        eval_phase(stage.haze->forward(), -glm::dot(light.direction, leg.direction));
    sum += leg.light.throughput * direct->way.transmittance *
           (light.luminance * light.cos_lamp / direct->pt_d2() * scattered * phase /
            (place.pdf * lamp.probability * leg.chance));
}

}  // namespace

void add_lamps_in_haze(const Stage& stage,
                       SensorWalk& sensor,
                       const HazeLeg& leg,
                       SensorNumbers& numbers,
                       std::span<Spectrum> by_fixture) {
    const Walk& walk = sensor.walk;
    if (walk.edge > stage.max_bounces) return;
    thread_local std::vector<LampOnLeg> lamps;
    choose_lamps(stage, leg, leg.seen ? kLampsSeen : kLampsLater, lamps);
    SystematicChoice choice(numbers.haze_lamp_choice(walk.edge));
    for (const LampOnLeg& lamp : lamps) {
        if (!choice.takes(lamp.probability)) continue;
        const std::array<float, 3> u = numbers.haze_lamp(walk.edge, lamp.fixture);
        add_lamp_in_haze(stage, sensor, leg, lamp, u, by_fixture[lamp.fixture]);
    }
}

void add_beams_in_haze(const Stage& stage,
                       const SensorWalk& sensor,
                       const HazeLeg& leg,
                       std::span<Spectrum> by_fixture) {
    if (!stage.beams || sensor.walk.edge > stage.max_bounces) return;
    const auto visit = [&](const Beam& beam, const BeamMeeting& meeting) {
        if (sensor.walk.edge + beam.edge > stage.max_bounces) return;
        const float scattered =
            leg.way.extinction(meeting.at_leg) * leg.way.transmittance(meeting.at_leg);
        const float phase =
            eval_phase(stage.haze->forward(), -glm::dot(beam.direction, leg.direction));
        by_fixture[static_cast<size_t>(beam.fixture)] +=
            leg.light.throughput * beam.flux.unpacked() *
            (meeting.kernel * meeting.transmittance * scattered * phase / leg.chance);
    };
    const bool in_frame = leg.seen && sensor.from_lens();
    const BeamMap& beams = in_frame ? *stage.beams : *stage.wide_beams;
    beams.gather(leg.origin, leg.direction, leg.way.last(), visit);
}

void HazePoint::add_cloth(size_t fixture, float asked, const Vertex& at) const {
    Walk& walk = sensor.walk;
    SheetNumbers u;
    for (float& v : u.point) v = random.next();
    for (float& v : u.lamp) v = random.next();
    const std::optional<SheetPoint> y =
        sample_sheet_point(stage, fixture, at.at.position, u.point, walk.light.hero);
    if (!y) return;
    const std::optional<SheetLight> light =
        sample_sheet_light(stage, walk, at, fixture, *y, u.lamp);
    if (!light) return;
    SampledSheet sheet;
    sheet.by_sensor_walk = light->met;
    sheet.pdf_to_cloth = eval_phase(stage.haze->forward(), glm::dot(y->from_z.direction, from));
    sheet.asked = asked;
    const float balance = balance_of_sampled_sheet(SensorSums{}, sheet);
    by_fixture[fixture] +=
        walk.light.throughput * light->light * (sheet.pdf_to_cloth / (asked * balance));
}

void HazePoint::add_lamp(size_t fixture, float asked, const Vertex& at) const {
    Walk& walk = sensor.walk;
    const float u = random.next();
    const std::optional<DirectLight> direct =
        sample_direct_light_in_haze(stage, walk, at, fixture, {u, random.next()});
    if (!direct) return;
    const LampLight& light = direct->light;
    const float phase = eval_phase(stage.haze->forward(), -glm::dot(light.direction, from));
    SampledLamp sampled;
    sampled.by_sensor_walk = direct->met(phase, stage.emitters[fixture]);
    sampled.passes = direct->way.probability;
    sampled.asked = asked;
    const float balance = balance_of_sampled_lamp(SensorSums{}, sampled);
    by_fixture[fixture] +=
        walk.light.throughput * direct->way.transmittance *
        (light.luminance * light.cos_lamp * phase / (direct->pt_d2() * asked * balance));
}

void HazePoint::add_light() const {
    const HazeAids& aids = *stage.haze_aids;
    if (sensor.walk.edge > stage.max_bounces) return;
    Vertex at;
    at.at.position = sensor.walk.last_position;
    SystematicChoice lamp_choice(random.next());
    for (size_t f = 0; !stage.partition && f < stage.emitters.size(); ++f) {
        if (lamp_choice.takes(aids.lamps[f])) add_lamp(f, aids.lamps[f], at);
    }
    if (!stage.sheets || sensor.walk.edge == stage.max_bounces) return;
    SystematicChoice sheet_choice(random.next());
    for (size_t f = 0; f < stage.emitters.size(); ++f) {
        if (sheet_choice.takes(aids.sheets[f])) add_cloth(f, aids.sheets[f], at);
    }
}

}  // namespace dapple
