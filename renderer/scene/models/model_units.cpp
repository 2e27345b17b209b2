#include "scene/models/model_units.h"

#include "scene/checks.h"

namespace dapple {

ModelAxes build_model_axes(const ModelUnits& units, Problems& problems) {
    // The inch is 25.4 mm exactly, the foot 12 inches (international yard and pound, 1959).
    static const std::vector<std::pair<std::string, double>> unit_words{
        {"m", 1.0}, {"cm", 0.01}, {"mm", 0.001}, {"ft", 0.3048}, {"in", 0.0254}};
    static const std::vector<std::pair<std::string, bool>> up_words{{"y", false}, {"z", true}};
    ModelAxes axes;
    axes.scale = checked_word(units.unit, unit_words, axes.scale, problems);
    axes.z_up = checked_word(units.up, up_words, axes.z_up, problems);
    return axes;
}

}  // namespace dapple
