#include "transport/ask_pilot.h"

#include <cmath>

#include "transport/pilot_walk.h"
#include "transport/sheet_light.h"

namespace dapple {

namespace {

constexpr int kMostVertices = 4;

// The mean over the wavelengths of the light that the vertex receives from a lamp and scatters back
// along the walk.
float lamp_light(const Stage& stage,
                 Walk& walk,
                 const Vertex& vertex,
                 size_t fixture,
                 const std::array<float, 2>& u) {
    if (!stage.emitters[fixture].may_reach(vertex.at.position)) return 0;
    const std::optional<DirectLight> lamp = sample_direct_light(stage, walk, vertex, fixture, u);
    if (!lamp) return 0;
    return (lamp->f * lamp->way.transmittance).mean() * lamp->light.luminance *
           std::abs(lamp->wi.z) * lamp->light.cos_lamp / lamp->pt_d2();
}

float sheet_light(
    const Stage& stage, Walk& walk, const Vertex& vertex, size_t fixture, const SheetNumbers& u) {
    if (!stage.sheets || !stage.sheets->lit_by(fixture)) return 0;
    const std::optional<SheetPoint> y =
        sample_sheet_point(stage, fixture, vertex.at.position, u.point, walk.light.hero);
    if (!y) return 0;
    const Direction wi = vertex.frame().to_local(y->from_z.direction);
    const std::optional<SheetLight> light =
        sample_sheet_light(stage, walk, vertex, fixture, *y, u.lamp);
    if (!light) return 0;
    const Spectrum f = eval(vertex.bsdf, vertex.wo(), wi, Carrying::kRadiance);
    return (f * light->light).mean() * std::abs(wi.z);
}

AskPoint ask_all(const Stage& stage, Walk& walk, const Vertex& vertex, RandomStream& random) {
    AskPoint point{.position = vertex.at.position, .normal = vertex.at.geometric, .light = {}};
    for (size_t f = 0; f < stage.emitters.size(); ++f) {
        const float u = random.next();
        point.light.lamps.push_back(lamp_light(stage, walk, vertex, f, {u, random.next()}));
        SheetNumbers numbers;
        for (float& v : numbers.point) v = random.next();
        for (float& v : numbers.lamp) v = random.next();
        point.light.sheets.push_back(sheet_light(stage, walk, vertex, f, numbers));
    }
    return point;
}

}  // namespace

void trace_ask_pilot(
    const Stage& stage, int x, int y, uint32_t number, std::vector<AskPoint>& points) {
    RandomStream random(stage.seed, stage.pass, number, Purpose::kAskPilot);
    Walk walk = start_pilot_walk(stage, x, y, number, random);
    Vertex vertex;
    for (int used = 0; used < kMostVertices;) {
        if (!find_next_vertex(stage, walk, vertex) || vertex.is_lamp()) return;
        if (!is_delta(vertex.bsdf)) {
            points.push_back(ask_all(stage, walk, vertex, random));
            ++used;
        }
        const Vec3 event = next_three(random);
        if (scatter(stage, walk, vertex, Carrying::kRadiance, event, random) ==
            ScatterResult::kEnded) {
            return;
        }
    }
}

}  // namespace dapple
