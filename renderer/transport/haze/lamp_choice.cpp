#include "transport/haze/lamp_choice.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr float kEqualAngles = 0.75F;  // share of the places that are drawn from equal angles
// Of the light that a lamp of the same peak intensity in all directions would give: the least
// guess, because two places do not show all of a beam.
constexpr float kLeastGuess = 0.02F;

float guess_light(const Stage& stage, const HazeLeg& leg, const LampOnLeg& lamp) {
    const Emitter& emitter = stage.emitters[lamp.fixture];
    const float mean_extinction = leg.way.depth(lamp.to) - leg.way.depth(lamp.from);
    if (!(mean_extinction > 0)) return 0;
    float sum = 0;
    for (const float share : {0.25F, 0.75F}) {
        const float t = lamp.middle(share);
        const Vec3 way = leg.origin + t * leg.direction - emitter.position();
        const Direction from_lamp = way / std::max(glm::length(way), 1e-6F);
        sum += emitter.candela(from_lamp) * leg.way.extinction(t) * leg.way.transmittance(t) *
               eval_phase(stage.haze->forward(), -glm::dot(from_lamp, leg.direction));
    }
    const float least = kLeastGuess * 0.25F * kInvPiF * static_cast<float>(emitter.peak_candela()) *
                        mean_extinction / (lamp.to - lamp.from);
    return (0.5F * sum + least) * lamp.angle / lamp.off;
}

bool see_lamp(const Stage& stage, const HazeLeg& leg, LampOnLeg& lamp) {
    const Emitter& emitter = stage.emitters[lamp.fixture];
    lamp.from = leg.way.first();
    lamp.to = leg.way.last();
    if (!emitter.clip_to_reach(leg.origin, leg.direction, lamp.from, lamp.to)) return false;
    const Vec3 to_lamp = emitter.position() - leg.origin;
    lamp.nearest = glm::dot(to_lamp, leg.direction);
    const Vec3 off = to_lamp - lamp.nearest * leg.direction;
    lamp.off =
        std::max({glm::length(off), 0.5F * emitter.radius(), 1e-4F * glm::length(to_lamp), 1e-4F});
    lamp.low = std::atan((lamp.from - lamp.nearest) / lamp.off);
    lamp.angle = std::atan((lamp.to - lamp.nearest) / lamp.off) - lamp.low;
    if (!(lamp.angle > 0)) return false;
    lamp.light = guess_light(stage, leg, lamp);
    return lamp.light > 0;
}

}  // namespace

void choose_lamps(const Stage& stage,
                  const HazeLeg& leg,
                  float most,
                  std::vector<LampOnLeg>& lamps) {
    lamps.clear();
    float all = 0;
    for (size_t f = 0; f < stage.emitters.size(); ++f) {
        LampOnLeg lamp;
        lamp.fixture = f;
        if (!see_lamp(stage, leg, lamp)) continue;
        all += lamp.light;
        lamps.push_back(lamp);
    }
    for (LampOnLeg& lamp : lamps) lamp.probability = std::min(1.0F, most * lamp.light / all);
}

PlaceOnLeg draw_place(const HazeLeg& leg, const LampOnLeg& lamp, float u) {
    const HazeWay& way = leg.way;
    const float before = way.depth(lamp.from);
    const float lost = -std::expm1(before - way.depth(lamp.to));  // over T(from)
    const float equal = lost > 1e-6F ? kEqualAngles : 1.0F;
    PlaceOnLeg place;
    if (u < equal) {
        place.t = lamp.middle(u / equal);
    } else {
        const float v = (u - equal) / (1.0F - equal);
        place.t = way.at_depth(before - std::log1p(-v * lost));
    }
    place.t = std::clamp(place.t, lamp.from, lamp.to);
    place.pdf =
        equal * lamp.off / (lamp.angle * (square(lamp.off) + square(place.t - lamp.nearest)));
    if (equal < 1.0F) {
        place.pdf +=
            (1.0F - equal) * way.extinction(place.t) * std::exp(before - way.depth(place.t)) / lost;
    }
    return place;
}

}  // namespace dapple
