#include "transport/lit_sheets.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"

namespace dapple {

namespace {

constexpr float kCell = 0.05F;            // m, approximate longest side of a cell
constexpr int kMostCuts = 16;             // of a triangle's side
constexpr size_t kManyTriangles = 20000;  // with as many triangles, cloth is not cut into cells
constexpr double kLeastShare = 0.01;      // of a fixture's lumens; less is not sampled

float longest_side(const SheetTriangle& t) {
    return std::max({glm::length(t.b - t.a), glm::length(t.c - t.b), glm::length(t.a - t.c)});
}

// Share of the incident light that a sheet scatters.
double scattered_share(const Material& m) {
    const double reflected = (m.reflectance.r + m.reflectance.g + m.reflectance.b) / 3;
    return m.opacity * (reflected + m.transmission - m.direct);
}

// Row i has 2 (n - i) - 1 cells, which point up and down in turn.
int cell_index(int n, float u, float v) {
    const float along_u = std::max(0.0F, u) * static_cast<float>(n);
    const float along_v = std::max(0.0F, v) * static_cast<float>(n);
    const int i = std::min(static_cast<int>(along_u), n - 1);
    const int j = std::min(static_cast<int>(along_v), n - 1 - i);
    const bool down = along_u - static_cast<float>(i) + along_v - static_cast<float>(j) > 1.0F;
    return i * (2 * n - i) + 2 * j + (down && i + j < n - 1 ? 1 : 0);
}

}  // namespace

void LitSheets::cut(const World& world) {
    const std::vector<SheetTriangle>& sheets = world.sheets();
    for (uint32_t t = 0; t < sheets.size(); ++t) {
        const SheetTriangle& sheet = sheets[t];
        corners_.insert(corners_.end(), {sheet.a, sheet.b, sheet.c});
        Triangle triangle;
        triangle.first_cell = static_cast<uint32_t>(cells_.size());
        if (sheets.size() < kManyTriangles) {
            const float cuts = std::ceil(longest_side(sheet) / kCell);
            triangle.n = static_cast<int>(std::clamp(cuts, 1.0F, static_cast<float>(kMostCuts)));
        }
        const int n = triangle.n;
        const float area = 0.5F * glm::length(glm::cross(sheet.b - sheet.a, sheet.c - sheet.a));
        triangle.cell_area = area / static_cast<float>(n * n);
        const float step = 1.0F / static_cast<float>(n);
        for (int i = 0; i < n; ++i) {
            for (int j = 0; j < n - i; ++j) {
                const float u = step * static_cast<float>(i);
                const float v = step * static_cast<float>(j);
                cells_.push_back({t, u, v, step});
                if (i + j < n - 1) cells_.push_back({t, u + step, v + step, -step});
            }
        }
        triangles_.push_back(triangle);
    }
}

Vec2 LitSheets::point_in(const Cell& cell, float r, float s) {
    if (r + s > 1.0F) {
        r = 1.0F - r;
        s = 1.0F - s;
    }
    return {cell.u + cell.step * r, cell.v + cell.step * s};
}

// Illuminance of a cell by the fixture alone, lx; the mean of four points.
double LitSheets::light_on(const Cell& cell, const World& world, const Emitter& emitter) const {
    const SheetTriangle& t = world.sheets()[cell.triangle];
    const Vec3 cross = glm::cross(t.b - t.a, t.c - t.a);
    const float length = glm::length(cross);
    if (!(length > 0.0F)) return 0;
    const Normal normal = cross / length;
    constexpr float kInside[][2] = {{0.15F, 0.15F}, {0.6F, 0.2F}, {0.2F, 0.6F}, {0.33F, 0.33F}};
    double sum = 0;
    for (int k = 0; k < 4; ++k) {
        const Vec2 at = point_in(cell, kInside[k][0], kInside[k][1]);
        const Point y = (1.0F - at.x - at.y) * t.a + at.x * t.b + at.y * t.c;
        LampLight light;
        const float u = 0.25F + 0.5F * static_cast<float>(k % 2);
        const float v = 0.25F + 0.5F * static_cast<float>(k / 2);
        if (!emitter.may_reach(y) || !emitter.sample_towards(y, u, v, light)) continue;
        const Vec3 to_lamp = light.position - y;
        const float distance = glm::length(to_lamp);
        Ray ray{y, to_lamp / distance, 1e-3F * distance, 0.999F * distance};
        if (world.blocked(ray)) continue;
        sum += light.luminance * light.cos_lamp * std::abs(glm::dot(normal, ray.direction)) /
               (distance * distance * light.pdf_towards);
    }
    return sum / 4;
}

// Over cells; empty if the fixture lights no cloth.
Discrete LitSheets::light_of(const Scene& scene, const World& world, const Emitter& emitter) const {
    std::vector<double> lumens(cells_.size(), 0.0);
    double all = 0;
    for (size_t c = 0; c < cells_.size(); ++c) {
        const Triangle& triangle = triangles_[cells_[c].triangle];
        const SheetTriangle& sheet = world.sheets()[cells_[c].triangle];
        const auto& material = scene.materials[static_cast<size_t>(sheet.material)];
        lumens[c] =
            light_on(cells_[c], world, emitter) * triangle.cell_area * scattered_share(material);
        all += lumens[c];
    }
    return all > kLeastShare * emitter.lumens() ? Discrete(lumens) : Discrete();
}

LitSheets::LitSheets(const Scene& scene,
                     const World& world,
                     const std::vector<Emitter>& emitters,
                     const LitByBefore& before)
    : by_fixture_(emitters.size()) {
    cut(world);
    if (cells_.empty()) return;
    const bool knows = before.sheets && before.lamp_is_same.size() == emitters.size() &&
                       before.sheets->by_fixture_.size() == emitters.size() &&
                       has_sheets_of(*before.sheets);
    parallel_blocks(static_cast<int64_t>(emitters.size()), 1, [&](int64_t first, int64_t) {
        const auto f = static_cast<size_t>(first);
        by_fixture_[f] = knows && before.lamp_is_same[f] ? before.sheets->by_fixture_[f]
                                                         : light_of(scene, world, emitters[f]);
    });
}

float LitSheets::density(size_t fixture, int sheet, const Vec2& barycentric) const {
    if (sheet < 0 || !lit_by(fixture)) return 0;
    const Triangle& triangle = triangles_[static_cast<size_t>(sheet)];
    const int cell = static_cast<int>(triangle.first_cell) +
                     cell_index(triangle.n, barycentric.x, barycentric.y);
    return by_fixture_[fixture].probability(cell) / triangle.cell_area;
}

float LitSheets::sample(
    size_t fixture, const World& world, float u0, float u1, float u2, SurfacePoint& at) const {
    const Discrete& cells = by_fixture_[fixture];
    const int c = cells.sample(u0);
    const Cell& cell = cells_[static_cast<size_t>(c)];
    const Vec2 inside = point_in(cell, u1, u2);
    const SheetTriangle& sheet = world.sheets()[cell.triangle];
    Hit hit;
    hit.body = sheet.body;
    hit.triangle = sheet.triangle;
    hit.u = inside.x;
    hit.v = inside.y;
    at = world.surface_at(Ray{}, hit);
    return cells.probability(c) / triangles_[cell.triangle].cell_area;
}

}  // namespace dapple
