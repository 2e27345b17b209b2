#include "render/prepare/find_asked_lamps.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "transport/ask_pilot.h"

namespace dapple {

namespace {

constexpr int kAskWalksAcross = 80;  // pilot walks, spread over the frame
constexpr int kAskWalksDown = 56;
constexpr int64_t kAskWalksPerBlock = 64;
constexpr int kMostParts = 4096;
constexpr float kAskCellsAcross = 48;  // of the room's diagonal
// A coarse cell's light counts with this share in the fine cells within it, in case their few
// pilot walks missed some.
constexpr float kCoarseShare = 0.25F;
constexpr float kCoarse = 4;  // fine cells along a coarse one
constexpr float kLeastDimmer = 0.125F;

bool has_choice(const Setup& setup) {
    size_t candidates = setup.emitters.size();
    for (size_t f = 0; f < setup.emitters.size(); ++f) {
        if (!setup.partition && setup.sheets.lit_by(f)) ++candidates;
    }
    return candidates > 1;
}

std::vector<AskPoint> trace_pilot(const Setup& setup) {
    const Wavelengths wavelengths = make_pass_wavelengths(0, 0);
    const PassMaterials materials(setup.materials, wavelengths);
    const Stage stage = setup.stage(materials, no_light_walks(setup), 0, 0);
    constexpr int64_t kWalks = int64_t{kAskWalksAcross} * kAskWalksDown;
    std::vector<std::vector<AskPoint>> blocks((kWalks + kAskWalksPerBlock - 1) / kAskWalksPerBlock);
    parallel_blocks(kWalks, kAskWalksPerBlock, [&](int64_t first, int64_t last) {
        std::vector<AskPoint>& block = blocks[static_cast<size_t>(first / kAskWalksPerBlock)];
        for (auto i = static_cast<int>(first); i < static_cast<int>(last); ++i) {
            const int x =
                (2 * (i % kAskWalksAcross) + 1) * setup.scene.camera.width / kAskWalksAcross / 2;
            const int y =
                (2 * (i / kAskWalksAcross) + 1) * setup.scene.camera.height / kAskWalksDown / 2;
            trace_ask_pilot(stage, x, y, static_cast<uint32_t>(i), block);
        }
    });
    std::vector<AskPoint> points;
    for (std::vector<AskPoint>& block : blocks) {
        std::move(block.begin(), block.end(), std::back_inserter(points));
    }
    return points;
}

// A dimmed lamp counts with more than its light, because it may be turned up afterwards.
void undo_dimmers(const Scene& scene, AskedLight& light) {
    for (size_t f = 0; f < light.lamps.size(); ++f) {
        const float up = 1.0F / std::max(kLeastDimmer, scene.fixtures[f].dimmer);
        light.lamps[f] *= up;
        light.sheets[f] *= up;
    }
}

// Root mean square of the light at the pilot's points, by part of the surfaces.
class MeanLight {
  public:
    MeanLight(float cell_m, size_t fixtures) : cells_(cell_m, kMostParts), fixtures_(fixtures) {}

    void add(const AskPoint& point) {
        const int part = cells_.add(point.position, point.normal);
        if (part < 0) return;
        const auto i = static_cast<size_t>(part);
        if (i == sums_.size()) {
            sums_.push_back({std::vector<float>(fixtures_), std::vector<float>(fixtures_)});
            counts_.push_back(0);
        }
        for (size_t f = 0; f < fixtures_; ++f) {
            sums_[i].lamps[f] += square(point.light.lamps[f]);
            sums_[i].sheets[f] += square(point.light.sheets[f]);
        }
        ++counts_[i];
    }
    AskedLight at(int part) const {
        AskedLight light = sums_[static_cast<size_t>(part)];
        const auto count = static_cast<float>(counts_[static_cast<size_t>(part)]);
        for (float& sum : light.lamps) sum = std::sqrt(sum / count);
        for (float& sum : light.sheets) sum = std::sqrt(sum / count);
        return light;
    }
    const SurfaceCells& cells() const { return cells_; }

  private:
    SurfaceCells cells_;
    size_t fixtures_;
    std::vector<AskedLight> sums_;  // of squares, by part
    std::vector<int> counts_;
};

void raise_to_share(const AskedLight& coarse, AskedLight& light) {
    for (size_t f = 0; f < light.lamps.size(); ++f) {
        light.lamps[f] = std::max(light.lamps[f], kCoarseShare * coarse.lamps[f]);
        light.sheets[f] = std::max(light.sheets[f], kCoarseShare * coarse.sheets[f]);
    }
}

}  // namespace

std::optional<AskedLamps> find_asked_lamps(const Setup& setup) {
    if (!has_choice(setup)) return std::nullopt;
    const size_t fixtures = setup.emitters.size();
    std::vector<AskPoint> points = trace_pilot(setup);
    const Bounds& room = setup.world.bounds();
    const float cell_m = glm::length(room.high - room.low) / kAskCellsAcross;
    if (!(cell_m > 0)) return std::nullopt;
    MeanLight fine(cell_m, fixtures);
    MeanLight coarse(kCoarse * cell_m, fixtures);
    for (AskPoint& point : points) {
        undo_dimmers(setup.scene, point.light);
        fine.add(point);
        coarse.add(point);
    }
    AskedLamps asked(fine.cells(), static_cast<int>(fixtures));
    for (const AskPoint& point : points) {
        const int part = fine.cells().find(point.position, point.normal);
        const int around = coarse.cells().find(point.position, point.normal);
        if (part < 0 || around < 0) continue;
        AskedLight light = fine.at(part);
        raise_to_share(coarse.at(around), light);
        asked.set(part, light);
    }
    return asked;
}

}  // namespace dapple
