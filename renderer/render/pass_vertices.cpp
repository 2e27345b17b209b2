#include "render/pass_vertices.h"

namespace dapple {

PassVertices::PassVertices(const FramePass& pass) {
    if (pass.merge_radius > 0) kept_.photons.emplace();
    if (pass.stage.connections) kept_.stored.emplace();
    if (!pass.stage.walks.beams.empty()) kept_.beams.emplace();
}

void PassVertices::index(const FramePass& pass, Stage& stage) {
    if (kept_.photons) {
        photons_.emplace(*kept_.photons, pass.merge_radius);
        wide_photons_.emplace(*kept_.photons, MergeCells::kWide * pass.merge_radius);
        stage.photons = &*photons_;
        stage.wide_photons = &*wide_photons_;
    }
    if (kept_.stored) {
        stored_.emplace(*kept_.stored, stage.connections->light_cells());
        stage.stored = &*stored_;
    }
}

void PassVertices::index_beams(Stage& stage) {
    if (!kept_.beams) return;
    // Light that haze or a surface scatters on is smooth, so the beams that it comes from may be
    // wide; a narrow one is met rarely, and is then a speck.
    constexpr float kWide = 6;
    constexpr uint32_t kOneOf = 4;
    beams_.emplace(*kept_.beams, *stage.haze, stage.beam_radius);
    wide_beams_.emplace(*kept_.beams, *stage.haze, kWide * stage.beam_radius, kOneOf);
    stage.beams = &*beams_;
    stage.wide_beams = &*wide_beams_;
}

}  // namespace dapple
