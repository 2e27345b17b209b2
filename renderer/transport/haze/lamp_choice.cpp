#include "transport/haze/lamp_choice.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr float kByAngle = 0.9F;  // share of the places that are drawn from the angle
// The least guess of a part, over the mean of all parts and over what a lamp of the same peak
// intensity in all directions would give: one place does not show all of a part.
constexpr float kLeastOfMean = 0.1F;
constexpr float kLeastOfPeak = 0.005F;

// Parts of later legs share a guess.
constexpr size_t kPartsTogether = 3;
static_assert(LampOnLeg::kParts % kPartsTogether == 0);
// What is left of a guess where the lamp's view says that the light is stopped on its way.
constexpr float kStopped = 0.05F;

// What the haze scatters at `t` per rad of the angle as seen from the lamp, times `off`.
float light_at(const Stage& stage, const HazeLeg& leg, size_t fixture, float t) {
    const Emitter& emitter = stage.emitters[fixture];
    const Vec3 way = leg.origin + t * leg.direction - emitter.position();
    const float distance = std::max(glm::length(way), 1e-6F);
    const Direction from_lamp = way / distance;
    const float candela = emitter.candela(from_lamp);
    const float scattered = leg.way.extinction(t) * leg.way.transmittance(t);
    if (!(candela * scattered > 0)) return 0;
    const bool arrives = stage.haze_aids->views[fixture].reaches(from_lamp, distance);
    return candela * scattered * (arrives ? 1.0F : kStopped) *
           eval_phase(stage.haze->forward(), -glm::dot(from_lamp, leg.direction));
}

void guess_light(const Stage& stage, const HazeLeg& leg, LampOnLeg& lamp) {
    constexpr float kPerPart = 1.0F / LampOnLeg::kParts;
    const size_t step = leg.seen ? 1 : kPartsTogether;
    const auto light_after = [&](float parts) {
        return light_at(stage, leg, lamp.fixture, lamp.place_at(parts * kPerPart));
    };
    float all = 0;
    float end = leg.seen ? 0.0F : light_after(0);
    for (size_t k = 0; k < LampOnLeg::kParts; k += step) {
        float light = light_after(static_cast<float>(k) + 0.5F * static_cast<float>(step));
        if (!leg.seen) {
            // The brightest of three places: a narrow beam along the leg may be at one only.
            const float start = end;
            end = light_after(static_cast<float>(k + step));
            light = std::max({start, light, end});
        }
        std::fill_n(lamp.guess.begin() + static_cast<std::ptrdiff_t>(k), step, light);
        all += light * static_cast<float>(step);
    }
    const auto peak = static_cast<float>(stage.emitters[lamp.fixture].peak_candela());
    const float lost = leg.way.depth(lamp.to) - leg.way.depth(lamp.from);
    const float of_peak = kLeastOfPeak * 0.25F * kInvPiF * peak * lost / (lamp.to - lamp.from);
    const float least = std::max(kLeastOfMean * kPerPart * all, of_peak);
    float sum = 0;
    for (float& guess : lamp.guess) {
        sum += std::max(guess, least) * kPerPart * lamp.angle / lamp.off;
        guess = sum;
    }
}

bool see_lamp(const Stage& stage, const HazeLeg& leg, LampOnLeg& lamp) {
    const Emitter& emitter = stage.emitters[lamp.fixture];
    // The partition has no weights, so there legs ask all lamps.
    if (is_wide(emitter) && !stage.partition) return false;
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
    guess_light(stage, leg, lamp);
    return lamp.light() > 0;
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
        all += lamp.light();
        lamps.push_back(lamp);
    }
    for (LampOnLeg& lamp : lamps) lamp.probability = std::min(1.0F, most * lamp.light() / all);
}

PlaceOnLeg draw_place(const HazeLeg& leg, const LampOnLeg& lamp, float u) {
    const HazeWay& way = leg.way;
    const float before = way.depth(lamp.from);
    const float lost = -std::expm1(before - way.depth(lamp.to));  // over T(from)
    const float by_angle = lost > 1e-6F ? kByAngle : 1.0F;
    constexpr auto kParts = static_cast<float>(LampOnLeg::kParts);
    const auto guess_of = [&](size_t k) {
        return lamp.guess[k] - (k > 0 ? lamp.guess[k - 1] : 0.0F);
    };
    PlaceOnLeg place;
    size_t part = 0;
    if (u < by_angle) {
        const float wanted = u / by_angle * lamp.light();
        while (part + 1 < LampOnLeg::kParts && lamp.guess[part] <= wanted) ++part;
        const float start = part > 0 ? lamp.guess[part - 1] : 0.0F;
        const float within = std::min(1.0F, (wanted - start) / guess_of(part));
        place.t = lamp.place_at((static_cast<float>(part) + within) / kParts);
        place.t = std::clamp(place.t, lamp.from, lamp.to);
    } else {
        const float v = (u - by_angle) / (1.0F - by_angle);
        place.t = std::clamp(way.at_depth(before - std::log1p(-v * lost)), lamp.from, lamp.to);
        const float share = std::clamp(lamp.share_at(place.t), 0.0F, 1.0F);
        part = std::min(static_cast<size_t>(share * kParts), LampOnLeg::kParts - 1);
    }
    place.pdf = by_angle * guess_of(part) / lamp.light() * kParts * lamp.off /
                (lamp.angle * (square(lamp.off) + square(place.t - lamp.nearest)));
    if (by_angle < 1.0F) {
        place.pdf += (1.0F - by_angle) * way.extinction(place.t) *
                     std::exp(before - way.depth(place.t)) / lost;
    }
    return place;
}

}  // namespace dapple
