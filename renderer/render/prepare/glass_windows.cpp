#include "render/prepare/glass_windows.h"

#include <algorithm>

#include "math/sequences.h"
#include "render/prepare/beam_end.h"

namespace dapple {

namespace {

constexpr uint32_t kProbesPerCell = 4;
constexpr uint32_t kQuickProbesPerCell = 1;

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
                                 const Bounds& object,
                                 uint32_t per_cell) {
    std::vector<double> flux(AimWindow::kCells, 0.0);
    for (uint32_t i = 0; i < AimWindow::kCells * per_cell; ++i) {
        const auto u = sobol_owen_4d(i, 2);
        const int cell = static_cast<int>(i / per_cell);
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
            (distance2 * light.pdf_area * static_cast<float>(per_cell));
    }
    return flux;
}

}  // namespace

std::vector<double> blur_cells(const std::vector<double>& cells) {
    constexpr int kSide = AimWindow::kSide;
    std::vector<double> out(cells.size(), 0.0);
    for (size_t i = 0; i < cells.size(); ++i) {
        const size_t window = i - i % AimWindow::kCells;
        const int row = static_cast<int>(i - window) / kSide;
        const int column = static_cast<int>(i - window) % kSide;
        for (int y = std::max(row - 1, 0); y <= std::min(row + 1, kSide - 1); ++y) {
            for (int x = std::max(column - 1, 0); x <= std::min(column + 1, kSide - 1); ++x) {
                out[i] += cells[window + static_cast<size_t>(kSide * y + x)] / 9;
            }
        }
    }
    return out;
}

std::vector<ProbedWindow> probe_glass(const Scene& scene,
                                      const World& world,
                                      const Emitter& emitter,
                                      const LampProbes* kept,
                                      bool is_quick) {
    const uint32_t per_cell = is_quick ? kQuickProbesPerCell : kProbesPerCell;
    std::vector<ProbedWindow> probed;
    for (const Bounds& object : world.broken_beam_bounds()) {
        if (const ProbedWindow* const known = kept ? kept->find(object) : nullptr) {
            probed.push_back(*known);
            continue;
        }
        ProbedWindow now{object, make_aim_window(emitter.position(), emitter.radius(), object), {}};
        if (now.window) {
            now.flux = probe_window(scene, world, emitter, *now.window, object, per_cell);
        }
        probed.push_back(std::move(now));
    }
    return probed;
}

GlassWindows windows_with_light(const std::vector<ProbedWindow>& probed) {
    GlassWindows found;
    std::vector<double> cells;
    for (const ProbedWindow& object : probed) {
        double sum = 0;
        for (const double f : object.flux) sum += f;
        if (!(sum > 0)) continue;
        found.lumens += sum;
        found.windows.push_back(*object.window);
        cells.insert(cells.end(), object.flux.begin(), object.flux.end());
    }
    // The few rays can miss glass in a cell at the edge of an object.
    found.cells = blur_cells(cells);
    return found;
}

GlassWindows find_glass_windows(const Scene& scene, const World& world, const Emitter& emitter) {
    return windows_with_light(probe_glass(scene, world, emitter, nullptr, false));
}

}  // namespace dapple
