#include "plausible/light/find_light_doubts.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "plausible/in_words.h"
#include "plausible/light/find_exposure_doubts.h"
#include "plausible/light/white_stops.h"
#include "scene/checks.h"

namespace dapple {

namespace {

constexpr double kNoLight = -12;  // of a white card
constexpr int kFinerAcross = 480;
constexpr size_t kPlacesOfRegion = 16;

bool is_in(const Region& region, const Vec2& raster, const SeenSpot& spot) {
    if (!spot.meets) return false;
    if (region.surface != kNoMaterial && spot.first_material != region.surface) return false;
    if (!region.has_rect) return true;
    const glm::ivec4& r = region.rect;
    return raster.x >= static_cast<float>(r.x) && raster.x < static_cast<float>(r.z) &&
           raster.y >= static_cast<float>(r.y) && raster.y < static_cast<float>(r.w);
}

Vec2 raster_of(const StagedSet& set, const SeenFrame& frame, size_t spot) {
    const Camera& camera = set.scene.camera;
    const auto across = static_cast<size_t>(frame.across);
    return (Vec2(static_cast<float>(spot % across), static_cast<float>(spot / across)) +
            Vec2(0.5F)) *
           Vec2(static_cast<float>(camera.width) / static_cast<float>(frame.across),
                static_cast<float>(camera.height) / static_cast<float>(frame.down));
}

// Looks for the region on a finer grid, over its rectangle or the whole frame.
std::vector<SeenSpot> look_finer(const StagedSet& set, const Region& region) {
    const Camera& camera = set.scene.camera;
    const glm::ivec4 rect =
        region.has_rect ? region.rect : glm::ivec4(0, 0, camera.width, camera.height);
    const int step = std::max(1, (rect.z - rect.x) / kFinerAcross);
    const int rows = (rect.w - rect.y + step - 1) / step;
    std::vector<std::vector<SeenSpot>> of_row(static_cast<size_t>(rows));
    parallel_blocks(rows, 4, [&](int64_t first, int64_t last) {
        for (int64_t row = first; row < last; ++row) {
            const int y = rect.y + static_cast<int>(row) * step;
            for (int x = rect.x; x < rect.z; x += step) {
                const Vec2 raster = Vec2(x, y) + Vec2(0.5F);
                const SeenSpot spot = see_spot(set, raster);
                if (is_in(region, raster, spot)) of_row[static_cast<size_t>(row)].push_back(spot);
            }
        }
    });
    std::vector<SeenSpot> found;
    for (const auto& row : of_row) found.insert(found.end(), row.begin(), row.end());
    return found;
}

std::vector<SeenSpot> spots_of(const StagedSet& set, const SeenFrame& frame, const Region& region) {
    std::vector<SeenSpot> found;
    for (size_t i = 0; i < frame.spots.size(); ++i) {
        if (is_in(region, raster_of(set, frame, i), frame.spots[i]))
            found.push_back(frame.spots[i]);
    }
    return found.empty() ? look_finer(set, region) : found;
}

bool is_of_glass(const Scene& scene, const SeenSpot& spot) {
    if (spot.first_material == kNoMaterial) return true;  // a lamp
    const MaterialKind kind = scene.materials[static_cast<size_t>(spot.first_material)].kind;
    return kind == MaterialKind::kGlass || kind == MaterialKind::kThinGlass ||
           kind == MaterialKind::kConductor;
}

// Of a white card on the brightest of some places in the region, stops from white. Infinite where
// the surface shows other light than falls on it.
double light_on(const StagedSet& set, const std::vector<SeenSpot>& spots, const QuickLight& light) {
    const size_t step = std::max<size_t>(1, spots.size() / kPlacesOfRegion);
    double most = 0;
    for (size_t i = step / 2; i < spots.size(); i += step) {
        const SeenSpot& spot = spots[i];
        if (is_of_glass(set.scene, spot)) return kInfinity;
        for (const float side : {1.0F, -1.0F}) {
            most = std::max(most, light.all({spot.at.position, side * spot.at.geometric}));
        }
    }
    return stops_from_white(set, most / kPi);
}

void add_regions(const StagedSet& set,
                 const SeenFrame& frame,
                 const QuickLight* light,
                 Doubts& doubts) {
    for (size_t i = 0; i < set.scene.regions.size(); ++i) {
        const Region& region = set.scene.regions[i];
        const RegionDescription& written = set.written.regions[i];
        const Place& place = written.surface.given ? written.surface.place : written.rect_px.place;
        const std::string& key = written.surface.given ? written.surface.key : written.rect_px.key;
        const std::vector<SeenSpot> spots = spots_of(set, frame, region);
        if (spots.empty()) {
            const std::string what = region.surface == kNoMaterial
                                         ? "nothing is there"
                                         : "the lens sees nothing of " +
                                               words_of(set, {}, region.surface) +
                                               (region.has_rect ? " in rect_px" : "");
            doubts.push_back(make_doubt(place, key, what + "; the region will have no figures"));
            continue;
        }
        if (light == nullptr) continue;
        const double stops = light_on(set, spots, *light);
        if (stops > kNoLight) continue;
        doubts.push_back(make_doubt(place,
                                    key,
                                    "hardly any light reaches it: " + stops_text(stops) +
                                        " below white, by a quick estimate",
                                    true));
    }
}

void add_meters(const StagedSet& set, const QuickLight& light, Doubts& doubts) {
    for (size_t i = 0; i < set.scene.meters.size(); ++i) {
        const Meter& meter = set.scene.meters[i];
        double lux = light.all({meter.position, meter.facing});
        if (meter.receptor == ReceptorKind::kDome) {
            const Frame frame(meter.facing);
            for (const Direction& side : {frame.s, -frame.s, frame.t, -frame.t}) {
                lux = std::max(lux, light.all({meter.position, side}));
            }
        }
        if (stops_from_white(set, lux / kPi) > kNoLight) continue;
        doubts.push_back(doubt_at(set.written.meters[i].facing,
                                  "hardly any light reaches the meter from there: " +
                                      number_text(std::round(1e3 * lux) / 1e3) +
                                      " lx by a quick estimate",
                                  true));
    }
}

}  // namespace

Doubts find_light_doubts(const StagedSet& set, const SeenFrame& frame, const QuickLight& light) {
    Doubts doubts;
    const auto& emitters = light.emitters();
    const bool has_light = std::any_of(
        emitters.begin(), emitters.end(), [](const Emitter& e) { return e.lumens() > 0; });
    if (!has_light) {
        doubts.push_back(make_doubt({set.written.path},
                                    "fixture",
                                    "there is no light: no [[fixture]] with a dimmer above 0 and "
                                    "no [[window]]"));
    }
    const bool sees_something = std::any_of(
        frame.spots.begin(), frame.spots.end(), [](const SeenSpot& spot) { return spot.meets; });
    Doubts exposure;
    if (has_light && sees_something) exposure = find_exposure_doubts(set, frame, light);
    doubts.insert(doubts.end(), exposure.begin(), exposure.end());
    const bool knows_light = has_light && exposure.empty();
    add_regions(set, frame, knows_light ? &light : nullptr, doubts);
    if (knows_light) add_meters(set, light, doubts);
    return doubts;
}

}  // namespace dapple
