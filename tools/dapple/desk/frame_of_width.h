// A scene's frame with another number of pixels for a while.
#pragma once

#include "drafts.h"
#include "scene/camera_and_measures/scale_frame.h"

namespace dapple {

class FrameOfWidth {
  public:
    FrameOfWidth(Scene& scene, int width) : scene_(scene), size_(scene) {
        if (width != scene.camera.width) scale_frame(scene, width);
    }
    ~FrameOfWidth() { size_.restore(scene_); }
    FrameOfWidth(const FrameOfWidth&) = delete;
    FrameOfWidth& operator=(const FrameOfWidth&) = delete;

  private:
    Scene& scene_;
    FrameSize size_;
};

}  // namespace dapple
