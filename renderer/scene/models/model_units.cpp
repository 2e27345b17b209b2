#include "scene/models/model_units.h"

#include <cstdio>

#include "scene/checks.h"

namespace dapple {

namespace {

// Times the model's size. A room of 10 m that is 1 km away has coordinates that are rounded to
// 0.06 mm, and rays leave its surfaces 2 mm off (geometry/surface_point.cpp).
constexpr double kFar = 100;

struct ModelBounds {
    glm::dvec3 low{kInfinity};
    glm::dvec3 high{-kInfinity};
};

ModelBounds bounds_of(const ModelDescription& model) {
    ModelBounds bounds;
    for (const ModelTriangle& triangle : model.triangles) {
        for (const ModelCorner& corner : triangle.corners) {
            const auto& v = model.positions[static_cast<size_t>(corner.position)];
            const glm::dvec3 p(v[0], v[1], v[2]);
            bounds.low = glm::min(bounds.low, p);
            bounds.high = glm::max(bounds.high, p);
        }
    }
    return bounds;
}

std::string offset_text(double value) {
    char text[64];
    std::snprintf(text, sizeof text, "%.3f", value);
    return text;
}

}  // namespace

ModelAxes build_model_axes(const Field<std::string>& file,
                           const ModelUnits& units,
                           const ModelDescription& model,
                           Problems& problems) {
    // The inch is 25.4 mm exactly, the foot 12 inches (international yard and pound, 1959).
    static const std::vector<std::pair<std::string, double>> unit_words{
        {"m", 1.0}, {"cm", 0.01}, {"mm", 0.001}, {"ft", 0.3048}, {"in", 0.0254}};
    static const std::vector<std::pair<std::string, bool>> up_words{{"y", false}, {"z", true}};
    ModelAxes axes;
    axes.scale = checked_word(units.unit, unit_words, axes.scale, problems);
    axes.z_up = checked_word(units.up, up_words, axes.z_up, problems);

    const ModelBounds bounds = bounds_of(model);
    const glm::dvec3 middle = 0.5 * (bounds.low + bounds.high);
    if (!(glm::length(middle) > kFar * glm::length(bounds.high - bounds.low))) return axes;
    axes.origin = middle;
    (axes.z_up ? axes.origin.z : axes.origin.y) = axes.z_up ? bounds.low.z : bounds.low.y;
    problems.note(file.place,
                  file.key,
                  "is far from its origin, as on a map; moved so that its point (" +
                      offset_text(axes.origin.x) + ", " + offset_text(axes.origin.y) + ", " +
                      offset_text(axes.origin.z) +
                      "), under its middle at its lowest height, is [0, 0, 0] here");
    return axes;
}

}  // namespace dapple
