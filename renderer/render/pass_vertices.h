// The vertices of a pass's light walks that camera walks use, indexed.
#pragma once

#include <optional>

#include "render/frame_pass.h"
#include "render/trace_walks.h"
#include "transport/haze/beam_map.h"

namespace dapple {

class PassVertices {
  public:
    // Keeps what the pass uses.
    explicit PassVertices(const FramePass& pass);

    KeptVertices& kept() { return kept_; }
    // Indexes the beams that the light walks have left, as index() does with the rest.
    void index_beams(Stage& stage);
    // Indexes what the light walks have kept. Lets the stage use it; this object must outlive that.
    void index(const FramePass& pass, Stage& stage);

    size_t photon_bytes() const { return photons_ ? photons_->bytes() : 0; }

  private:
    KeptVertices kept_;
    std::optional<PhotonMap> photons_;
    std::optional<PhotonMap> wide_photons_;
    std::optional<StoredVertices> stored_;
    std::optional<BeamMap> beams_, wide_beams_;
};

}  // namespace dapple
