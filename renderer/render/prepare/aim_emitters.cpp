#include "render/prepare/aim_emitters.h"

#include <algorithm>
#include <utility>

#include "math/sequences.h"

namespace dapple {

namespace {

constexpr uint32_t kBeamProbes = 4096;
constexpr uint32_t kProbesPerCell = 4;
constexpr double kGlassOverRest = 10;
constexpr double kLeastGain = 1.2;

// What the lamp's light meets first, behind panes and cut-outs. The kind is Lambertian if the light
// meets nothing or a lamp.
struct BeamEnd {
    MaterialKind kind = MaterialKind::kLambertian;
    Point position{0};
};

BeamEnd find_beam_end(const Scene& scene, const World& world, const LampLight& light) {
    SurfacePoint at;
    at.position = light.position;
    at.geometric = light.normal;
    for (int passed = 0; passed < 8; ++passed) {
        const Ray ray{offset_origin(at, light.direction), light.direction, 0.0F, kInfinity};
        Hit hit;
        if (!world.closest(ray, hit)) return {};
        at = world.surface_at(ray, hit);
        if (at.lamp >= 0 || at.material == kNoMaterial) return {};
        const Material& material = scene.materials[static_cast<size_t>(at.material)];
        const bool passes = is_see_through(material) && material.kind != MaterialKind::kSheet;
        if (!passes) return {material.kind, at.position};
    }
    return {};
}

bool contains(const Bounds& box, const Point& p) {
    const float slack = 1e-4F * box.diagonal();
    return glm::all(glm::greaterThanEqual(p, box.low - slack)) &&
           glm::all(glm::lessThanEqual(p, box.high + slack));
}

// Flux through each cell of the window into the object, lm.
std::vector<double> probe_window(const Scene& scene,
                                 const World& world,
                                 const Emitter& emitter,
                                 const AimWindow& window,
                                 const Bounds& object) {
    std::vector<double> flux(AimWindow::kCells, 0.0);
    for (uint32_t i = 0; i < AimWindow::kCells * kProbesPerCell; ++i) {
        const auto u = sobol_owen_4d(i, 2);
        const int cell = static_cast<int>(i / kProbesPerCell);
        const Point from = emitter.sample_emission(u[0], u[1], 0.5F, 0.5F).position;
        const Vec3 to = window.point_in_cell(cell, u[2], u[3]) - from;
        const float distance2 = glm::dot(to, to);
        const LampLight light = emitter.eval(from, glm::normalize(to));
        if (!(light.luminance > 0.0F)) continue;
        const BeamEnd end = find_beam_end(scene, world, light);
        if (end.kind != MaterialKind::kGlass || !contains(object, end.position)) continue;
        const float cos_window = glm::dot(light.direction, window.frame.n);
        flux[static_cast<size_t>(cell)] +=
            light.luminance * light.cos_lamp * cos_window * window.cell_area() /
            (distance2 * light.pdf_area * static_cast<float>(kProbesPerCell));
    }
    return flux;
}

// The mean over each cell and the cells around it. The few rays can miss glass in a cell at the
// edge of an object.
std::vector<double> blurred(const std::vector<double>& cells) {
    constexpr int kSide = AimWindow::kSide;
    std::vector<double> out(cells.size(), 0.0);
    for (int i = 0; i < AimWindow::kCells; ++i) {
        for (int y = std::max(i / kSide - 1, 0); y <= std::min(i / kSide + 1, kSide - 1); ++y) {
            for (int x = std::max(i % kSide - 1, 0); x <= std::min(i % kSide + 1, kSide - 1); ++x) {
                out[static_cast<size_t>(i)] += cells[static_cast<size_t>(kSide * y + x)] / 9;
            }
        }
    }
    return out;
}

// Share of the beam that falls on cloth.
double share_on_cloth(const Scene& scene, const World& world, const Emitter& emitter) {
    double met = 0;
    for (uint32_t i = 0; i < kBeamProbes; ++i) {
        const auto u = sobol_owen_4d(i, 1);
        const LampLight light = emitter.sample_emission(u[0], u[1], u[2], u[3]);
        if (!(light.luminance > 0.0F)) continue;
        met += find_beam_end(scene, world, light).kind == MaterialKind::kSheet ? 1 : 0;
    }
    return met / kBeamProbes;
}

void aim_emitter(const Scene& scene, const World& world, Emitter& emitter) {
    std::vector<AimWindow> windows;
    std::vector<double> cells;
    double in_glass = 0;
    for (const Bounds& object : world.broken_beam_bounds()) {
        const auto window = make_aim_window(emitter.position(), emitter.radius(), object);
        if (!window) continue;
        const std::vector<double> flux = probe_window(scene, world, emitter, *window, object);
        double sum = 0;
        for (const double f : flux) sum += f;
        if (!(sum > 0)) continue;
        in_glass += sum;
        windows.push_back(*window);
        const std::vector<double> weights = blurred(flux);
        cells.insert(cells.end(), weights.begin(), weights.end());
    }
    if (windows.empty()) return;
    const double g = std::min(in_glass / emitter.lumens(), 1.0);
    const double c = share_on_cloth(scene, world, emitter);
    const double more = (kGlassOverRest - 1) * g;
    const double share = more / (1 + more) * g / (g + c);
    const double gain = 1 - share + share / g;
    if (gain < kLeastGain) return;
    emitter.aim(Aim(std::move(windows), cells, static_cast<float>(share)));
}

}  // namespace

void aim_emitters(const Scene& scene, const World& world, std::vector<Emitter>& emitters) {
    for (Emitter& emitter : emitters) {
        if (emitter.lumens() > 0) aim_emitter(scene, world, emitter);
    }
}

}  // namespace dapple
