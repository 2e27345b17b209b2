#include "transport/sheet_light.h"

#include <cmath>

namespace dapple {

namespace {

// A point on cloth as seen from z.
bool see_sheet_point(
    const Stage& stage, const Point& z, const SurfacePoint& at, int hero, SheetPoint& y) {
    const Vec3 to_sheet = at.position - z;
    const float distance = glm::length(to_sheet);
    if (!(distance > 0 && y.density > 0)) return false;
    y.from_z = {at.position, to_sheet / distance, distance};
    if (!see_vertex(stage, y.from_z.direction, at, hero, y.vertex)) return false;
    y.per_area = y.vertex.cos_geometric / square(distance);
    return true;
}

}  // namespace

std::optional<SheetPoint> sample_sheet_point(
    const Stage& stage, size_t fixture, const Point& z, const std::array<float, 3>& u, int hero) {
    std::optional<SheetPoint> result(std::in_place);
    SurfacePoint at;
    result->density = stage.sheets->sample(fixture, stage.world, u[0], u[1], u[2], at);
    if (!see_sheet_point(stage, z, at, hero, *result)) result.reset();
    return result;
}

std::optional<SheetLight> sample_sheet_light(const Stage& stage,
                                             Walk& walk,
                                             const Vertex& z,
                                             size_t fixture,
                                             const SheetPoint& y,
                                             const std::array<float, 2>& u) {
    // This edge is tested first because it is blocked more often than the edge to the lamp: y is
    // sampled where the lamp's light falls.
    const std::optional<Connection> to_sheet = connect(stage, walk, z, y.from_z);
    if (!to_sheet) return std::nullopt;
    const std::optional<DirectLight> lamp = sample_direct_light(stage, walk, y.vertex, fixture, u);
    if (!lamp) return std::nullopt;
    const Vertex& vertex = y.vertex;
    const LampLight& light = lamp->light;
    const float pt_d2 = lamp->pt_d2();
    const float meets = lamp->met(pdf(vertex.bsdf, vertex.wo(), lamp->wi), stage.emitters[fixture]);
    const float cos_y = std::abs(glm::dot(vertex.at.geometric, lamp->wi_world));
    SheetLight answer;
    answer.light =
        lamp->f * to_sheet->transmittance * lamp->way.transmittance *
        (light.luminance * std::abs(lamp->wi.z) * light.cos_lamp / pt_d2 * y.per_area / y.density);
    answer.met = to_sheet->probability *
                 (stage.asked_at(vertex.at, false).lamp(fixture) + lamp->way.probability * meets) *
                 y.per_area / y.density;
    answer.reached =
        lamp->way.probability * light.pdf_area * light.pdf_direction * cos_y / (pt_d2 * y.density);
    answer.walked =
        answer.reached * to_sheet->probability * pdf(vertex.bsdf, lamp->wi, vertex.wo());
    return answer;
}

}  // namespace dapple
