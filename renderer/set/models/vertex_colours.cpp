#include "set/models/vertex_colours.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace dapple {

namespace {

constexpr float kNone = std::numeric_limits<float>::quiet_NaN();

int32_t add_plain_material(ModelDescription& model) {
    ModelMaterial material;
    material.name = "no material";
    material.place = {model.path};
    model.materials.push_back(std::move(material));
    return static_cast<int32_t>(model.materials.size()) - 1;
}

void show_colours(ModelDescription& model) {
    const auto is_bare = [](const ModelTriangle& triangle) { return triangle.material < 0; };
    if (std::any_of(model.triangles.begin(), model.triangles.end(), is_bare)) {
        const int32_t plain = add_plain_material(model);
        for (ModelTriangle& triangle : model.triangles) {
            if (is_bare(triangle)) triangle.material = plain;
        }
    }
    for (ModelMaterial& material : model.materials) {
        if (!material.diffuse_map.empty()) continue;
        material.diffuse = {1, 1, 1};
        material.vertex_colours = true;
    }
}

}  // namespace

float linear_from_srgb(float code) {
    return code <= 0.04045F ? code / 12.92F : std::pow((code + 0.055F) / 1.055F, 2.4F);
}

void VertexColours::add(size_t vertex, const std::array<float, 3>& code) {
    codes_.resize(vertex, {kNone, kNone, kNone});
    codes_.push_back(code);
    for (const float channel : code) largest_ = std::max(largest_, channel);
}

void VertexColours::give_to(ModelDescription& model) {
    if (codes_.empty()) return;
    codes_.resize(model.positions.size(), {kNone, kNone, kNone});
    const float unit = largest_ > 1 ? 1.0F / 255.0F : 1.0F;
    bool is_white = true;
    for (std::array<float, 3>& code : codes_) {
        for (float& channel : code) {
            const float scaled = std::isnan(channel) ? 1.0F : unit * channel;
            channel = linear_from_srgb(std::clamp(scaled, 0.0F, 1.0F));
            is_white = is_white && channel == 1.0F;
        }
    }
    if (is_white) return;
    model.colours = std::move(codes_);
    show_colours(model);
}

}  // namespace dapple
