#include "render/packing/find_build_order.h"

#include <algorithm>

namespace dapple {

namespace {

constexpr float kNearFigure = 0.6F;  // m
constexpr double kAboveFloor = 0.5;  // m, of meters that count as figures

enum class BuildStage { kBackground, kFigure, kAccent };

// What counts as a figure: upright, from `base` up.
struct Figure {
    std::string name;
    Point base{0};
    float height = 0;
};

std::vector<Figure> figures_of(const Scene& scene, const DaySheet& sheet) {
    std::vector<Figure> figures;
    for (const StandIn& f : scene.stand_ins) figures.push_back({f.name, f.position, f.height});
    if (!figures.empty()) return figures;
    for (const PlacedThing& place : sheet.places) {
        if (place.kind != PlaceKind::kMeter || place.at.height.value_or(0) < kAboveFloor) continue;
        figures.push_back({place.name, place.at.position, 0});
    }
    return figures;
}

// The distance of the light's axis from the upright axis of a figure, m.
float distance_from_figure(const Fixture& f, const Figure& figure) {
    constexpr int kHeights = 9;
    float least = kInfinity;
    for (int i = 0; i < kHeights; ++i) {
        const float up = figure.height * static_cast<float>(i) / (kHeights - 1);
        const Vec3 to = figure.base + Vec3(0, up, 0) - f.position;
        const float along = glm::dot(to, f.axis);
        if (along > 0) least = std::min(least, glm::length(to - along * f.axis));
    }
    return least;
}

struct Order {
    BuildStage stage = BuildStage::kBackground;
    std::string figure;  // that it lights
};

Order order_of(const Scene& scene, const std::vector<Figure>& figures, const Fixture& f) {
    Order order;
    float nearest = kNearFigure;
    for (const Figure& figure : figures) {
        const float distance = distance_from_figure(f, figure);
        if (f.form == FixtureForm::kBare || distance > nearest) continue;
        nearest = distance;
        order.figure = figure.name;
        const bool points_back = glm::dot(f.axis, scene.camera.frame.n) < 0;
        order.stage = points_back ? BuildStage::kAccent : BuildStage::kFigure;
    }
    return order;
}

std::string reason_of(const Order& order, const PackedFixture& f) {
    if (order.stage == BuildStage::kAccent) return "lights " + order.figure + " from behind";
    if (order.stage == BuildStage::kFigure) return "lights " + order.figure;
    return f.meets.empty() ? "lights no figure" : "lights " + f.meets.back().name;
}

}  // namespace

std::vector<BuildStep> find_build_order(const Scene& scene, const DaySheet& sheet) {
    const PackingList& list = sheet.list;
    const std::vector<Figure> figures = figures_of(scene, sheet);
    std::vector<size_t> by_lumens(list.fixtures.size());
    for (size_t i = 0; i < by_lumens.size(); ++i) by_lumens[i] = i;
    std::stable_sort(by_lumens.begin(), by_lumens.end(), [&](size_t a, size_t b) {
        return list.fixtures[a].lumens > list.fixtures[b].lumens;
    });
    std::vector<BuildStep> steps;
    for (const auto& [stage, word] : {std::pair(BuildStage::kBackground, "background"),
                                      std::pair(BuildStage::kFigure, "figure"),
                                      std::pair(BuildStage::kAccent, "accent")}) {
        for (const size_t i : by_lumens) {
            const Order order = order_of(scene, figures, scene.fixtures[i]);
            if (order.stage != stage) continue;
            const PackedFixture& packed = list.fixtures[i];
            steps.push_back({word, packed.name, reason_of(order, packed)});
        }
    }
    return steps;
}

}  // namespace dapple
