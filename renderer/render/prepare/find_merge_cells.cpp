#include "render/prepare/find_merge_cells.h"

#include <array>
#include <map>

#include "base/parallel.h"

namespace dapple {

namespace {

constexpr float kCellInRadii = 16;
constexpr double kDense = 8;
constexpr size_t kMostWalks = 1U << 15U;
constexpr int64_t kGatherWalksPerBlock = 256;

// Pixels whose camera walks can gather photons after the first surface; at most kMostWalks of them,
// evenly chosen.
std::vector<int> pilot_pixels(const Scene& scene, const FirstHits& first_hits) {
    std::vector<int> pixels;
    for (size_t i = 0; i < first_hits.surface.size(); ++i) {
        const MaterialId id = first_hits.surface[i];
        if (id == kNoMaterial) continue;
        const MaterialKind kind = scene.materials[static_cast<size_t>(id)].kind;
        const bool may_gather = kind != MaterialKind::kLambertian && kind != MaterialKind::kSheet;
        if (may_gather) pixels.push_back(static_cast<int>(i));
    }
    const size_t every = pixels.size() / kMostWalks + 1;
    for (size_t i = 0; i * every < pixels.size(); ++i) pixels[i] = pixels[i * every];
    pixels.resize((pixels.size() + every - 1) / every);
    return pixels;
}

// Marks the cells where at least kDense photons of a usual pass are expected in the usual disc.
void mark_dense_cells(const LightPilot& pilot, MergeCells& cells) {
    struct Cell {
        double photons = 0;
        Point inside{0};
    };
    std::map<std::array<int, 3>, Cell> found;
    for (const StoredVertex& v : pilot.vertices) {
        if (!v.behind_focus) continue;
        const glm::ivec3 at = cells.cell_at(v.at.position);
        Cell& cell = found[{at.x, at.y, at.z}];
        cell.photons += pilot.usual_walks_per_walk[static_cast<size_t>(v.fixture)];
        cell.inside = v.at.position;
    }
    const double disc_per_cell = kPi / (kCellInRadii * kCellInRadii);
    for (const auto& [at, cell] : found) {
        if (cell.photons * disc_per_cell >= kDense) cells.mark_dense(cell.inside);
    }
}

}  // namespace

MergeCells find_merge_cells(const Setup& setup,
                            const FirstHits& first_hits,
                            const LightPilot& pilot,
                            float radius) {
    const std::vector<int> pixels = pilot_pixels(setup.scene, first_hits);
    const auto count = static_cast<int64_t>(pixels.size());
    const Wavelengths wavelengths = make_pass_wavelengths(0, 0);
    const PassMaterials materials(setup.materials, wavelengths);
    const Stage stage = setup.stage(materials, no_light_walks(setup), 0, 0);
    std::vector<std::vector<Point>> gather_points(
        static_cast<size_t>((count + kGatherWalksPerBlock - 1) / kGatherWalksPerBlock));
    parallel_blocks(count, kGatherWalksPerBlock, [&](int64_t first, int64_t last) {
        std::vector<Point>& block =
            gather_points[static_cast<size_t>(first / kGatherWalksPerBlock)];
        for (int64_t i = first; i < last; ++i) {
            const int pixel = pixels[static_cast<size_t>(i)];
            trace_pilot_walk(stage, pixel % first_hits.width, pixel / first_hits.width, block);
        }
    });
    MergeCells cells(kCellInRadii * radius);
    for (const std::vector<Point>& block : gather_points) {
        for (const Point& p : block) cells.mark_around(p);
    }
    mark_dense_cells(pilot, cells);
    return cells;
}

}  // namespace dapple
