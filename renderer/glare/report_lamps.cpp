#include "glare/report_lamps.h"

#include <algorithm>

#include "base/units.h"
#include "glare/add_spread.h"

namespace dapple {

namespace {

constexpr double kLongestHood = 300;  // mm; a longer one is no advice
constexpr double kFarthestMove = 6;   // m, likewise
constexpr double kShaded = 0.01;      // of the light is left when the lamp is turned away
constexpr double kTurnStep = 0.5;     // degrees
constexpr size_t kMostTold = 6;       // ghosts of one lamp
constexpr double kLeastTold = 1e-4;   // of the brightest lamp's lux

// How far the lamp must be turned until hardly any of its light meets the lens.
std::optional<double> turn_away(const Setup& setup, const LensLight& light) {
    const Fixture& fixture = setup.scene.fixtures[static_cast<size_t>(light.fixture)];
    const bool has_beam = fixture.form != FixtureForm::kBare && !fixture.is_window;
    if (!has_beam || light.way != SeenWay::kDirect) return std::nullopt;
    const Emitter& lamp = setup.emitters[static_cast<size_t>(light.fixture)];
    const Direction to_lens = glm::normalize(setup.lens.position() - lamp.position());
    const auto intensity = [&](const Direction& d) {
        const LampLight l = lamp.eval(lamp.position(), d);
        return l.cos_lamp > 0 ? static_cast<double>(l.luminance * l.cos_lamp) : 0.0;
    };
    const double now = intensity(to_lens);
    // Turning the lamp away is the lens going away from its axis.
    Vec3 aside = to_lens - glm::dot(to_lens, lamp.axis()) * lamp.axis();
    if (glm::length(aside) < 1e-4F) aside = Frame(lamp.axis()).s;
    const Direction outwards = glm::normalize(aside);
    const double off =
        std::acos(std::clamp(static_cast<double>(glm::dot(to_lens, lamp.axis())), -1.0, 1.0));
    for (double turn = kTurnStep; turn < 90; turn += kTurnStep) {
        const double angle = off + radians_from_degrees(turn);
        const Direction d = static_cast<float>(std::cos(angle)) * lamp.axis() +
                            static_cast<float>(std::sin(angle)) * outwards;
        if (intensity(d) < kShaded * now) return turn;
    }
    return std::nullopt;
}

void advise(const Setup& setup,
            const RealLens& lens,
            const Hood& hood,
            const LensLight& light,
            GlareLamp& told) {
    const Camera& camera = setup.scene.camera;
    told.turn_away_deg = turn_away(setup, light);
    if (told.in_picture) return;
    if (const auto length = hood_against(camera, lens, light.angle(), kLongestHood)) {
        told.hood_mm = std::ceil(*length);
    }
    const double dark = dark_angle(hood);
    const bool is_window = setup.scene.fixtures[static_cast<size_t>(light.fixture)].is_window;
    if (light.way != SeenWay::kDirect || is_window || dark >= kPi / 2) return;
    const double move =
        static_cast<double>(light.place.z) * (std::tan(dark) - std::tan(light.angle()));
    if (move > 0 && move < kFarthestMove) told.move_m = std::ceil(100 * move) / 100;
}

GlareLamp named(const Scene& scene, const LensLight& light) {
    GlareLamp lamp;
    lamp.fixture = scene.fixtures[static_cast<size_t>(light.fixture)].name;
    lamp.way = light.way;
    const bool has_mirror = light.way == SeenWay::kInMirror && light.mirror != kNoMaterial;
    if (has_mirror) lamp.mirror = scene.materials[static_cast<size_t>(light.mirror)].name;
    return lamp;
}

// The lights of one lamp that are seen in the same way and place count as one.
bool is_part_of(const GlareLamp& told, const LensLight& light, const GlareLamp& lamp) {
    return told.fixture == lamp.fixture && told.way == light.way && told.mirror == lamp.mirror &&
           (light.way == SeenWay::kDirect || std::abs(told.angle - light.angle()) < 0.05);
}

}  // namespace

std::vector<GlareLamp> report_lamps(const Setup& setup,
                                    const RealLens* lens,
                                    const Hood& hood,
                                    const std::vector<LensLight>& lights,
                                    const std::vector<std::vector<Ghost>>& ghosts) {
    std::vector<GlareLamp> lamps;
    for (size_t l = 0; l < lights.size(); ++l) {
        const LensLight& light = lights[l];
        GlareLamp lamp = named(setup.scene, light);
        auto told = std::find_if(lamps.begin(), lamps.end(), [&](const GlareLamp& known) {
            return is_part_of(known, light, lamp);
        });
        if (told == lamps.end()) {
            lamp.angle = light.angle();
            lamp.in_picture = place_in_picture(setup.scene.camera, light).has_value();
            lamp.lit_share = lens ? hood.lit_share(light.angle()) : 1;
            if (lens) advise(setup, *lens, hood, light, lamp);
            told = lamps.insert(lamps.end(), lamp);
        }
        told->lux += light.lux * static_cast<double>(light.passed.mean());
        told->ghosts.insert(told->ghosts.end(), ghosts[l].begin(), ghosts[l].end());
    }
    std::stable_sort(
        lamps.begin(), lamps.end(), [](const auto& a, const auto& b) { return a.lux > b.lux; });
    while (!lamps.empty() && lamps.back().lux < kLeastTold * lamps.front().lux) lamps.pop_back();
    for (GlareLamp& lamp : lamps) {
        std::stable_sort(lamp.ghosts.begin(),
                         lamp.ghosts.end(),
                         [](const Ghost& a, const Ghost& b) { return a.luminance > b.luminance; });
        if (lamp.ghosts.size() > kMostTold) lamp.ghosts.resize(kMostTold);
    }
    return lamps;
}

}  // namespace dapple
