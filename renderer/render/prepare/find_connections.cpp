#include "render/prepare/find_connections.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "transport/connection_pilot.h"

namespace dapple {

namespace {

constexpr int kWalksAcross = 80;  // pilot camera walks, spread over the frame
constexpr int kWalksDown = 56;
constexpr int kMostLightCells = 384;
constexpr int kMostReceiverCells = 512;
constexpr float kCellsAcross = 48;       // of the room's diagonal, for the smallest cells
constexpr float kGrow = 1.26F;           // of the cells, until there are few enough
constexpr size_t kReceiversPerCell = 2;  // that are connected to each light cell
constexpr double kStoredPerPixel = 0.25;
constexpr int64_t kPerBlock = 64;
// The share of P(L|K) that is proportional to the number of vertices alone.
constexpr double kEvenShare = 0.05;

std::vector<PilotReceiver> trace_receivers(const Stage& stage) {
    constexpr int64_t kWalks = int64_t{kWalksAcross} * kWalksDown;
    std::vector<std::optional<PilotReceiver>> found(kWalks);
    parallel_blocks(kWalks, kPerBlock, [&](int64_t first, int64_t last) {
        for (auto i = static_cast<int>(first); i < static_cast<int>(last); ++i) {
            const Camera& camera = stage.scene.camera;
            const int x = (2 * (i % kWalksAcross) + 1) * camera.width / kWalksAcross / 2;
            const int y = (2 * (i / kWalksAcross) + 1) * camera.height / kWalksDown / 2;
            found[static_cast<size_t>(i)] = find_receiver(stage, x, y, static_cast<uint32_t>(i));
        }
    });
    std::vector<PilotReceiver> receivers;
    for (std::optional<PilotReceiver>& r : found) {
        if (r) receivers.push_back(std::move(*r));
    }
    return receivers;
}

// Cells that hold all points, at most `most` of them. `at(item)` is the item's surface point.
template <class Items, class At>
SurfaceCells make_cells(const Items& items, float cell_m, int most, const At& at) {
    for (;; cell_m *= kGrow) {
        SurfaceCells cells(cell_m, most + 1);
        for (const auto& item : items) cells.add(at(item).position, at(item).geometric);
        if (cells.size() <= most) return cells;
    }
}

struct PilotLights {
    ConnectionTable::LightCells known;
    std::vector<std::vector<const StoredVertex*>> vertices;  // by cell
};

PilotLights make_light_cells(const LightPilot& pilot, float cell_m) {
    PilotLights lights;
    ConnectionTable::LightCells& known = lights.known;
    known.cells = make_cells(
        pilot.vertices, cell_m, kMostLightCells, [](const StoredVertex& v) { return v.at; });
    const auto count = static_cast<size_t>(known.cells.size());
    const size_t fixtures = pilot.usual_walks_per_walk.size();
    constexpr double kLeastFlux = 1e-20;  // lm, of a cell
    known.expected.resize(count);
    known.flux.resize(count, kLeastFlux);
    known.fixture_flux.resize(fixtures);
    lights.vertices.resize(count);
    std::vector<double> vertices_of(fixtures);
    for (const StoredVertex& v : pilot.vertices) {
        const int cell = known.cells.find(v.at.position, v.at.geometric);
        const auto i = static_cast<size_t>(cell);
        const auto f = static_cast<size_t>(v.fixture);
        const auto flux = static_cast<double>(v.flux.unpacked().mean());
        known.expected[i] += pilot.usual_walks_per_walk[f];
        known.flux[i] += flux;
        known.fixture_flux[f] += flux;
        vertices_of[f] += pilot.usual_walks_per_walk[f];
        lights.vertices[i].push_back(&v);
    }
    for (size_t f = 0; f < fixtures; ++f) {
        if (vertices_of[f] > 0) known.fixture_flux[f] /= vertices_of[f];
    }
    return lights;
}

// The light that each light cell brings to a receiver cell. `receivers`: some in the cell.
std::vector<double> light_at(const Stage& stage,
                             const PilotLights& lights,
                             std::span<const PilotReceiver* const> receivers,
                             uint32_t cell) {
    RandomStream random(stage.seed, stage.pass, cell, Purpose::kConnectionPilot);
    const size_t count = lights.known.expected.size();
    std::vector<double> light(count);
    double all = 0;
    double all_expected = 0;
    for (size_t l = 0; l < count; ++l) {
        const auto& vertices = lights.vertices[l];
        const auto vertex_count = static_cast<float>(vertices.size());
        for (const PilotReceiver* z : receivers) {
            const auto i = static_cast<size_t>(random.next() * vertex_count);
            const StoredVertex& y = *vertices[std::min(i, vertices.size() - 1)];
            // The vertices are drawn evenly here, but stored in proportion to their flux.
            const auto flux = static_cast<double>(y.flux.unpacked().mean());
            if (flux > 0) light[l] += lights.known.flux[l] / flux * connected_light(stage, *z, y);
        }
        all += light[l];
        all_expected += lights.known.expected[l];
    }
    for (size_t l = 0; l < count; ++l) {
        const double even = lights.known.expected[l] / all_expected;
        light[l] = all > 0 ? (1 - kEvenShare) * light[l] / all + kEvenShare * even : even;
    }
    return light;
}

}  // namespace

std::optional<ConnectionTable> find_connections(const Setup& setup,
                                                const LightPilot& pilot,
                                                double pixels) {
    const Bounds& room = setup.world.bounds();
    const float cell_m = glm::length(room.high - room.low) / kCellsAcross;
    if (!(cell_m > 0)) return std::nullopt;
    const Wavelengths wavelengths = make_pass_wavelengths(0, 0);
    const PassMaterials materials(setup.materials, wavelengths);
    const Stage stage = setup.stage(materials, no_light_walks(setup), 0, 0);
    const std::vector<PilotReceiver> receivers = trace_receivers(stage);
    if (pilot.vertices.empty() || receivers.empty()) return std::nullopt;

    const PilotLights lights = make_light_cells(pilot, cell_m);
    SurfaceCells receiver_cells = make_cells(
        receivers, cell_m, kMostReceiverCells, [](const PilotReceiver& r) { return r.vertex.at; });
    std::vector<std::vector<const PilotReceiver*>> in_cell(
        static_cast<size_t>(receiver_cells.size()));
    for (const PilotReceiver& r : receivers) {
        const int cell = receiver_cells.find(r.vertex.at.position, r.vertex.at.geometric);
        auto& list = in_cell[static_cast<size_t>(cell)];
        if (list.size() < kReceiversPerCell) list.push_back(&r);
    }
    ConnectionTable table(std::move(receiver_cells), lights.known, kStoredPerPixel * pixels);
    parallel_blocks(static_cast<int64_t>(in_cell.size()), 1, [&](int64_t first, int64_t) {
        const auto cell = static_cast<uint32_t>(first);
        table.set(static_cast<int>(cell), light_at(stage, lights, in_cell[cell], cell));
    });
    return table;
}

}  // namespace dapple
