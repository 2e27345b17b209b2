// The vertices of a pass's light walks that camera walks use, indexed.
#pragma once

#include <optional>

#include "render/frame_pass.h"
#include "render/trace_walks.h"

namespace dapple {

class PassVertices {
  public:
    // Keeps what the pass uses.
    explicit PassVertices(const FramePass& pass);

    KeptVertices& kept() { return kept_; }
    // Indexes what the light walks have kept. Lets the stage use it; this object must outlive that.
    void index(const FramePass& pass, Stage& stage);
    // The stage uses none of it any more.
    static void release(Stage& stage);

    size_t photon_bytes() const { return photons_ ? photons_->bytes() : 0; }

  private:
    KeptVertices kept_;
    std::optional<PhotonMap> photons_;
    std::optional<PhotonMap> wide_photons_;
    std::optional<StoredVertices> stored_;
};

}  // namespace dapple
