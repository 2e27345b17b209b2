#include "transport/haze/lamp_choice.h"

#include <algorithm>
#include <cmath>
#include <span>

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

// A guess at what the haze scatters at places of a leg, per rad of the angle as seen from the lamp,
// times `off`.
class GuessAtPlaces {
  public:
    GuessAtPlaces(const Stage& stage, const HazeLeg& leg, const LampOnLeg& lamp)
        : leg_(leg),
          lamp_(lamp),
          view_(stage.haze_aids->views[lamp.fixture]),
          forward_(stage.haze->forward()),
          origin_(leg.origin - stage.emitters[lamp.fixture].position()) {}

    // At `lights.size()` places from the share `first` of the angle on, `step` apart.
    void fill(float first, float step, std::span<float> lights) const {
        const float slope = (lamp_.from - lamp_.nearest) / lamp_.off;
        const float cosine = 1.0F / std::sqrt(1.0F + slope * slope);
        Vec2 angle = turned({cosine, slope * cosine}, turn_by(first));  // cosine and sine
        const Vec2 turn = turn_by(step);
        for (float& light : lights) {
            const float t = lamp_.nearest + lamp_.off * angle.y / std::max(angle.x, 1e-6F);
            light = at(std::clamp(t, lamp_.from, lamp_.to));
            angle = turned(angle, turn);
        }
    }

  private:
    Vec2 turn_by(float share) const {
        return {std::cos(share * lamp_.angle), std::sin(share * lamp_.angle)};
    }
    static Vec2 turned(const Vec2& a, const Vec2& by) {
        return {a.x * by.x - a.y * by.y, a.y * by.x + a.x * by.y};
    }

    float at(float t) const {
        const Vec3 way = origin_ + t * leg_.direction;
        const float distance = std::max(glm::length(way), 1e-6F);
        const Direction from_lamp = way / distance;
        const LampView::Light& sent = view_.towards(from_lamp);
        if (!(sent.candela > 0)) return 0;
        return sent.candela * (distance < sent.reach ? 1.0F : kStopped) * leg_.way.extinction(t) *
               leg_.way.transmittance(t) *
               eval_phase(forward_, -glm::dot(from_lamp, leg_.direction));
    }

    const HazeLeg& leg_;
    const LampOnLeg& lamp_;
    const LampView& view_;
    float forward_;
    Vec3 origin_;  // of the leg, from the lamp's middle
};

void guess_parts(const GuessAtPlaces& guess, LampOnLeg& lamp) {
    guess.fill(0.5F / LampOnLeg::kParts, 1.0F / LampOnLeg::kParts, lamp.guess);
}

// The brightest of three places for each group of parts: a narrow beam along the leg may be at one
// only.
void guess_part_groups(const GuessAtPlaces& guess, LampOnLeg& lamp) {
    constexpr size_t kGroups = LampOnLeg::kParts / kPartsTogether;
    std::array<float, 2 * kGroups + 1> lights;
    guess.fill(0, 0.5F / kGroups, lights);
    for (size_t k = 0; k < LampOnLeg::kParts; ++k) {
        const size_t i = 2 * (k / kPartsTogether);
        lamp.guess[k] = std::max({lights[i], lights[i + 1], lights[i + 2]});
    }
}

void guess_light(const Stage& stage, const HazeLeg& leg, LampOnLeg& lamp) {
    const GuessAtPlaces guess(stage, leg, lamp);
    leg.seen ? guess_parts(guess, lamp) : guess_part_groups(guess, lamp);
    constexpr float kPerPart = 1.0F / LampOnLeg::kParts;
    float all = 0;
    for (const float light : lamp.guess) all += light;
    const auto peak = static_cast<float>(stage.emitters[lamp.fixture].peak_candela());
    const float lost = leg.way.depth(lamp.to) - leg.way.depth(lamp.from);
    const float of_peak = kLeastOfPeak * 0.25F * kInvPiF * peak * lost / (lamp.to - lamp.from);
    const float least = std::max(kLeastOfMean * kPerPart * all, of_peak);
    float sum = 0;
    for (float& part : lamp.guess) {
        sum += std::max(part, least) * kPerPart * lamp.angle / lamp.off;
        part = sum;
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
    // The difference of the two ends' angles from where the leg is nearest.
    const float start = (lamp.from - lamp.nearest) / lamp.off;
    const float end = (lamp.to - lamp.nearest) / lamp.off;
    lamp.angle = std::atan2(end - start, 1.0F + start * end);
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
