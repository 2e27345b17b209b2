#include "transport/sheet_join.h"

#include <cmath>

namespace dapple {

bool draw_on_sheet(const Stage& stage,
                   size_t fixture,
                   const Point& from,
                   const std::array<float, 3>& u,
                   int hero,
                   SheetPoint& sheet) {
    SurfacePoint at;
    sheet.density = stage.sheets->sample(fixture, stage.world, u[0], u[1], u[2], at);
    const Vec3 to_sheet = at.position - from;
    sheet.distance = glm::length(to_sheet);
    if (!(sheet.distance > 0 && sheet.density > 0)) return false;
    sheet.direction = to_sheet / sheet.distance;
    if (!see_vertex(stage, sheet.direction, at, hero, sheet.at)) return false;
    sheet.per_area = sheet.at.cos_geometric / square(sheet.distance);
    return true;
}

bool ask_sheet(const Stage& stage,
               Walk& walk,
               const Vertex& z,
               size_t fixture,
               const SheetPoint& sheet,
               const std::array<float, 2>& u,
               SheetLight& light) {
    const Emitter& emitter = stage.emitters[fixture];
    const Vertex& y = sheet.at;
    LampLight lamp;
    if (!emitter.sample_towards(y.at.position, u[0], u[1], lamp)) return false;
    const Direction wi_world = -lamp.direction;
    const Direction wi = y.frame.to_local(wi_world);
    if (!sides_agree(y, wi_world, wi.z)) return false;
    const Spectrum f = eval(y.bsdf, y.wo, wi, Carrying::kRadiance);
    if (f.is_black()) return false;
    Connection to_sheet;
    if (!connect(stage, walk, z, y.at.position, sheet.direction, sheet.distance, to_sheet)) {
        return false;
    }
    const float distance = glm::length(lamp.position - y.at.position);
    Connection to_lamp;
    if (!connect(stage, walk, y, lamp.position, wi_world, distance, to_lamp)) return false;
    const float cos_lamp = emitter.is_point() ? 1.0F : glm::dot(lamp.normal, lamp.direction);
    const float asked = square(distance) * lamp.pdf_towards;  // pt d²
    light.light =
        f * to_sheet.transmittance * to_lamp.transmittance *
        (lamp.luminance * std::abs(wi.z) * cos_lamp / asked * sheet.per_area / sheet.density);
    const float meets = emitter.is_point() ? 0.0F : pdf(y.bsdf, y.wo, wi) * cos_lamp / asked;
    light.met = to_sheet.probability * (1.0F + to_lamp.probability * meets) * sheet.per_area /
                sheet.density;
    const float cos_y = std::abs(glm::dot(y.at.geometric, wi_world));
    light.fallen = to_sheet.probability * to_lamp.probability * lamp.pdf_area * lamp.pdf_direction *
                   cos_y / (asked * sheet.density);
    light.walked = light.fallen * pdf(y.bsdf, wi, y.wo);
    return true;
}

}  // namespace dapple
