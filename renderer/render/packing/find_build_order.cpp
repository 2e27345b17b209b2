#include "render/packing/find_build_order.h"

#include <algorithm>

namespace dapple {

namespace {

constexpr float kNearFigure = 0.6F;  // m

enum class Stage { kBackground, kFigure, kAccent };

// The distance of the light's axis from the upright axis of a figure, m.
float distance_from_figure(const Fixture& f, const StandIn& figure) {
    constexpr int kHeights = 9;
    float least = kInfinity;
    for (int i = 0; i < kHeights; ++i) {
        const float up = figure.height * static_cast<float>(i) / (kHeights - 1);
        const Vec3 to = figure.position + Vec3(0, up, 0) - f.position;
        const float along = glm::dot(to, f.axis);
        if (along > 0) least = std::min(least, glm::length(to - along * f.axis));
    }
    return least;
}

struct Order {
    Stage stage = Stage::kBackground;
    std::string figure;  // that it lights
};

Order order_of(const Scene& scene, const Fixture& f) {
    Order order;
    float nearest = kNearFigure;
    for (const StandIn& figure : scene.stand_ins) {
        const float distance = distance_from_figure(f, figure);
        if (f.form == FixtureForm::kBare || distance > nearest) continue;
        nearest = distance;
        order.figure = figure.name;
        const bool points_back = glm::dot(f.axis, scene.camera.frame.n) < 0;
        order.stage = points_back ? Stage::kAccent : Stage::kFigure;
    }
    return order;
}

std::string reason_of(const Order& order, const PackedFixture& f) {
    if (order.stage == Stage::kAccent) return "lights " + order.figure + " from behind";
    if (order.stage == Stage::kFigure) return "lights " + order.figure;
    return f.meets.empty() ? "lights no figure" : "lights " + f.meets.back().name;
}

}  // namespace

std::vector<BuildStep> find_build_order(const Scene& scene, const PackingList& list) {
    std::vector<size_t> by_lumens(list.fixtures.size());
    for (size_t i = 0; i < by_lumens.size(); ++i) by_lumens[i] = i;
    std::stable_sort(by_lumens.begin(), by_lumens.end(), [&](size_t a, size_t b) {
        return list.fixtures[a].lumens > list.fixtures[b].lumens;
    });
    std::vector<BuildStep> steps;
    for (const auto& [stage, word] : {std::pair(Stage::kBackground, "background"),
                                      std::pair(Stage::kFigure, "figure"),
                                      std::pair(Stage::kAccent, "accent")}) {
        for (const size_t i : by_lumens) {
            const Order order = order_of(scene, scene.fixtures[i]);
            if (order.stage != stage) continue;
            const PackedFixture& packed = list.fixtures[i];
            steps.push_back({word, packed.name, reason_of(order, packed)});
        }
    }
    return steps;
}

}  // namespace dapple
