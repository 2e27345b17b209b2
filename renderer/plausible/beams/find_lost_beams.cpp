#include "plausible/beams/find_lost_beams.h"

#include <algorithm>
#include <array>
#include <cctype>

#include "geometry/surfaces_past_fixtures.h"
#include "math/sequences.h"
#include "plausible/in_words.h"

namespace dapple {

namespace {

constexpr uint32_t kBeamRays = 64;
constexpr float kNearlyAll = 0.98F;
constexpr float kBeside = 0.05F;  // rad, outside the field that still counts as hit

// Where the rays of a beam end, as shares.
struct BeamEnds {
    float nowhere = 0;
    float own = 0;              // on the fixture's own barn doors, snoot or housing
    bool meets_helper = false;  // glass, cloth or a board
};

BeamEnds ends_of(const StagedSet& set, const Emitter& emitter, int fixture) {
    BeamEnds ends;
    for (uint32_t i = 0; i < kBeamRays; ++i) {
        const auto u = sobol_owen_4d(i, 5);
        const LampLight light = emitter.sample_emission(u[0], u[1], u[2], u[3]);
        const Ray ray{light.position + 1e-4F * light.direction, light.direction, 0.0F, kInfinity};
        Thing thing;
        SurfacePoint at;
        const Counts counts = [&](const Thing&, const SurfacePoint& met) {
            return met.lamp != fixture;
        };
        if (!first_counting(set.world, ray, counts, thing, at)) {
            ends.nowhere += 1.0F / kBeamRays;
            continue;
        }
        if (thing == Thing{ThingKind::kHousing, fixture}) ends.own += 1.0F / kBeamRays;
        const bool is_helper = thing.kind == ThingKind::kGlass ||
                               (thing.kind == ThingKind::kBoard && !is_of_room(set.scene, thing));
        ends.meets_helper = ends.meets_helper || is_helper;
    }
    return ends;
}

// The trade's words for lights on a figure, as one of the words of the name.
bool is_named_for_figure(const std::string& name) {
    constexpr std::array kWords = {"key", "fill", "rim", "edge", "hair", "kicker", "backlight"};
    std::string word;
    for (const char c : name + " ") {
        if (std::isalpha(static_cast<unsigned char>(c)) != 0) {
            word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
            continue;
        }
        if (std::find(kWords.begin(), kWords.end(), word) != kWords.end()) return true;
        word.clear();
    }
    return false;
}

// How far the axis passes a figure, and whether the field reaches it.
struct Pass {
    bool reaches = false;
    float distance = kInfinity;  // m, from the axis
    int figure = -1;
};

Pass nearest_figure(const StagedSet& set, const std::vector<Mover>& movers, const Fixture& f) {
    Pass pass;
    const float half_field =
        0.5F * (f.wide_beam_angle > 0 ? f.wide_field_angle : f.field_angle) + kBeside;
    for (const Mover& mover : movers) {
        if (mover.thing.kind != ThingKind::kFigure) continue;
        for (const Chord& chord : mover.cage) {
            const Vec3 to = chord.a - f.position;
            const float along = glm::dot(to, f.axis);
            const float across = glm::length(to - along * f.axis);
            const float distance = along > 0 ? across : glm::length(to);
            if (along > 0 && std::atan2(across, along) < half_field) pass.reaches = true;
            if (distance >= pass.distance) continue;
            pass.distance = distance;
            pass.figure = mover.thing.index;
        }
    }
    (void)set;
    return pass;
}

std::optional<Doubt> passing_doubt(const StagedSet& set,
                                   const std::vector<Mover>& movers,
                                   size_t index) {
    const Fixture& f = set.scene.fixtures[index];
    const bool is_cone = f.form == FixtureForm::kSpot && !f.photometry;
    if (!is_cone || !f.aim || !is_named_for_figure(f.name)) return std::nullopt;
    const Pass pass = nearest_figure(set, movers, f);
    if (pass.figure < 0 || pass.reaches) return std::nullopt;
    const StandIn& figure = set.scene.stand_ins[static_cast<size_t>(pass.figure)];
    const Point chest = figure.position + Vec3(0, 0.75F * figure.height, 0);
    return doubt_at(set.written.fixtures[index].aim,
                    "the beam passes the figure \"" + figure.name + "\" by " +
                        length_text(pass.distance) +
                        "; aim = " + triple_text({chest.x, chest.y, chest.z}) + " is its chest",
                    true);
}

// ---- Cloths -------------------------------------------------------------------------------------

constexpr float kEdgeOn = 0.17F;  // sine of 10°
constexpr double kLitWell = 0.3;  // of the light of a cloth that faces the lamp
constexpr float kOnAxis = 0.6F;   // of half the cloth's diagonal

// Whether the fixture's axis goes through the middle of the cloth, before anything stops it.
bool goes_through(const StagedSet& set, const Fixture& f, const Board& cloth) {
    const Vec3 to = cloth.centre - f.position;
    const float along = glm::dot(to, f.axis);
    const float half = 0.5F * (cloth.round ? cloth.size.x : glm::length(cloth.size));
    if (along <= 0 || glm::length(to - along * f.axis) > kOnAxis * half) return false;
    SurfacePoint at;
    const Ray ray{f.position, f.axis, 0.0F, along};
    return !closest_past_fixtures(set.scene, set.world, ray, at) || at.material == cloth.material;
}

// Whether either side gets, from all lamps together, a good part of what the cloth would get from
// the fixture if it faced it. Within 10° of edge-on the fixture itself gives at most 0.17 of that.
bool is_lit_well(const QuickLight& light, size_t fixture, const Fixture& f, const Board& cloth) {
    const float distance2 = glm::dot(cloth.centre - f.position, cloth.centre - f.position);
    const double facing = light.emitters()[fixture].peak_candela() / static_cast<double>(distance2);
    for (const float side : {1.0F, -1.0F}) {
        const Normal normal = side * cloth.facing;
        if (light.direct({cloth.centre + 1e-3F * normal, normal}) > kLitWell * facing) return true;
    }
    return false;
}

}  // namespace

Doubts find_lost_beams(const StagedSet& set,
                       const std::vector<Mover>& movers,
                       const QuickLight& light) {
    Doubts doubts;
    for (size_t i = 0; i < set.written.fixtures.size(); ++i) {
        const FixtureDescription& written = set.written.fixtures[i];
        const BeamEnds ends = ends_of(set, light.emitters()[i], static_cast<int>(i));
        if (ends.own > kNearlyAll) {
            doubts.push_back(doubt_at(written.barn_doors_deg,
                                      "its own barn doors or snoot let no light out; open them"));
        } else if (ends.nowhere > kNearlyAll && !set.scene.room.empty()) {
            doubts.push_back(
                doubt_at(written.aim.given ? written.aim : written.position,
                         "its light meets nothing: the beam leaves the model; aim it at the set"));
        } else if (!ends.meets_helper) {
            if (auto doubt = passing_doubt(set, movers, i)) doubts.push_back(std::move(*doubt));
        }
    }
    return doubts;
}

Doubts find_edge_on_cloths(const StagedSet& set, const QuickLight& light) {
    Doubts doubts;
    for (size_t b = 0; b < set.scene.boards.size(); ++b) {
        const Board& cloth = set.scene.boards[b];
        if (cloth.kind != BoardKind::kDiffuser || !cloth.clipped_to.empty()) continue;
        for (size_t i = 0; i < set.written.fixtures.size(); ++i) {
            const Fixture& f = set.scene.fixtures[i];
            const bool is_flat = std::abs(glm::dot(f.axis, cloth.facing)) < kEdgeOn;
            if (f.form == FixtureForm::kBare || !is_flat || !goes_through(set, f, cloth)) continue;
            if (is_lit_well(light, i, f, cloth)) continue;
            const Triple lamp{f.position.x, f.position.y, f.position.z};
            doubts.push_back(doubt_at(written_board(set, static_cast<int>(b))->aim,
                                      "the cloth is edge-on to the beam of \"" + f.name +
                                          "\", which passes it; aim = " + triple_text(lamp) +
                                          " faces the lamp"));
            break;
        }
    }
    return doubts;
}

}  // namespace dapple
