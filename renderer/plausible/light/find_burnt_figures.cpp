#include "plausible/light/find_burnt_figures.h"

#include <algorithm>
#include <cmath>

#include "math/sequences.h"
#include "plausible/beams/sight_lines.h"
#include "plausible/bodies/crossings.h"
#include "plausible/light/white_stops.h"
#include "scene/boards_and_figures/figure_places.h"
#include "scene/checks.h"

namespace dapple {

namespace {

constexpr double kHalfBurnt = 0.7;      // stops from white, of the median
constexpr double kFifthOfFace = 0.05;   // likewise, of the brightest fifth
constexpr double kFifthOfFigure = 0.5;  // likewise, with its dress
constexpr float kRadiusOfFace = 0.05F;  // of the height, around the eyes
constexpr uint32_t kRaysToAFace = 64;
constexpr size_t kFewestSpots = 40;  // of a figure that is judged
constexpr size_t kMostSpots = 300;

// One place that the lens sees.
struct SeenPlace {
    SurfacePoint at;
    Direction direction{0, 0, 1};
};

bool is_opaque(const Scene& scene, const SurfacePoint& at) {
    if (at.material == kNoMaterial) return true;
    const Material& m = scene.materials[static_cast<size_t>(at.material)];
    return m.kind != MaterialKind::kGlass && m.kind != MaterialKind::kThinGlass && m.opacity == 1;
}

// What the lens sees of the skin of a face.
std::vector<SeenPlace> places_of_face(const StagedSet& set, const StandIn& figure) {
    const Camera& camera = set.scene.camera;
    const Counts counts = [&](const Thing&, const SurfacePoint& at) {
        return is_opaque(set.scene, at);
    };
    std::vector<SeenPlace> found;
    for (uint32_t i = 0; i < kRaysToAFace; ++i) {
        const auto u = sobol_owen_4d(i, 13);
        const float radius = kRadiusOfFace * figure.height * std::sqrt(u[0]);
        const Vec2 off = radius * Vec2(std::cos(2 * kPiF * u[1]), std::sin(2 * kPiF * u[1]));
        const Direction way = glm::normalize(figure_face(figure) + off.x * camera.frame.s +
                                             off.y * camera.frame.t - camera.position);
        Thing thing;
        SurfacePoint at;
        const Ray ray{camera.position, way, 0, kInfinity};
        if (!first_counting(set.world, ray, counts, thing, at)) continue;
        if (at.material == figure.skin) found.push_back({at, way});
    }
    return found;
}

std::vector<SeenPlace> places_of_figure(const SeenFrame& frame, int figure) {
    std::vector<SeenPlace> all;
    for (const SeenSpot& spot : frame.spots) {
        if (!spot.meets || spot.thing != Thing{ThingKind::kFigure, figure}) continue;
        all.push_back({spot.at, spot.direction});
    }
    std::vector<SeenPlace> some;
    const size_t step = std::max<size_t>(1, all.size() / kMostSpots);
    for (size_t i = 0; i < all.size(); i += step) some.push_back(all[i]);
    return some;
}

// Whether glass stands between a lamp and the face.
bool is_lit_through_glass(const StagedSet& set, const QuickLight& light, const Point& face) {
    const auto& fixtures = set.scene.fixtures;
    for (size_t i = 0; i < fixtures.size(); ++i) {
        if (fixtures[i].is_window || !(fixtures[i].dimmer > 0)) continue;
        if (light.is_past_glass(i, face)) return true;
    }
    return false;
}

// Stops from white of the places, darkest first.
class PlaceStops {
  public:
    template <class Luminance>
    PlaceStops(const StagedSet& set,
               const std::vector<SeenPlace>& places,
               const Luminance& luminance) {
        for (const SeenPlace& place : places) {
            stops_.push_back(stops_from_white(set, luminance(place)));
        }
        std::sort(stops_.begin(), stops_.end());
    }

    double at_share(double share) const {
        const auto i = static_cast<size_t>(share * static_cast<double>(stops_.size()));
        return stops_[std::min(i, stops_.size() - 1)];
    }
    double share_above_white() const {
        const auto first = std::upper_bound(stops_.begin(), stops_.end(), 0.0);
        return static_cast<double>(stops_.end() - first) / static_cast<double>(stops_.size());
    }

  private:
    std::vector<double> stops_;
};

Doubt burnt_doubt(const StagedSet& set, const std::string& what, const std::string& how_much) {
    return doubt_at(exposure_key(set),
                    what + " looks burnt out " + setting_text(set.scene.camera) + ": " + how_much,
                    true);
}

// By the light that comes straight from lamps.
std::optional<Doubt> fifth_burnt(const StagedSet& set,
                                 const QuickLight& light,
                                 const std::string& what,
                                 const std::vector<SeenPlace>& places,
                                 double most) {
    const PlaceStops stops(set, places, [&](const SeenPlace& place) {
        return light.sure_luminance(place.at, place.direction);
    });
    if (stops.at_share(0.8) <= most) return std::nullopt;
    const double share = std::round(100 * stops.share_above_white());
    const double less = std::max(0.1, std::ceil(10 * stops.at_share(0.98)) / 10);
    return burnt_doubt(set,
                       what,
                       number_text(share) + " % of it is above white, by a quick estimate; " +
                           number_text(less) + (less == 1 ? " stop" : " stops") +
                           " less by shutter_s, iso, f_number or a dimmer would keep it");
}

std::optional<Doubt> burnt_face(const StagedSet& set,
                                const QuickLight& light,
                                const StandIn& figure) {
    const Point face = figure_face(figure);
    const std::vector<SeenPlace> places = places_of_face(set, figure);
    if (!is_in_frame(set.lens, face) || places.size() < kRaysToAFace / 2) return std::nullopt;
    const PlaceStops all(set, places, [&](const SeenPlace& place) {
        return light.luminance(place.at, place.direction);
    });
    if (all.at_share(0.5) <= kHalfBurnt || is_lit_through_glass(set, light, face)) {
        return fifth_burnt(set, light, "the face", places, kFifthOfFace);
    }
    return burnt_doubt(set,
                       "the face",
                       "half of it is " + stops_text(all.at_share(0.5)) +
                           " and more above white, by a quick estimate; change shutter_s, iso or "
                           "f_number");
}

}  // namespace

Doubts find_burnt_figures(const StagedSet& set, const SeenFrame& frame, const QuickLight& light) {
    for (const StandIn& figure : set.scene.stand_ins) {
        if (auto doubt = burnt_face(set, light, figure)) return {*doubt};
    }
    for (size_t i = 0; i < set.scene.stand_ins.size(); ++i) {
        const std::vector<SeenPlace> places = places_of_figure(frame, static_cast<int>(i));
        if (places.size() < kFewestSpots) continue;
        if (auto doubt = fifth_burnt(set, light, "the figure", places, kFifthOfFigure))
            return {*doubt};
    }
    return {};
}

}  // namespace dapple
