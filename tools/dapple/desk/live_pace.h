// How wide the frame may be while something is dragged, so that pictures keep up with the hand.
//
// A frame takes a time that does not depend on its size, and a time for each pixel. Both are taken
// from the frame before. A slower set, or a machine that does other work too, gets smaller frames.
#pragma once

namespace dapple {

class LivePace {
  public:
    // px. `height_over_width`: of the frame. `widest`: of the frame at rest.
    int width(int widest, double height_over_width);
    // What a frame took, in seconds: before its first pixel, and for its pixels.
    void learn(int pixels, double before_s, double for_pixels_s);

    static constexpr double kFrameTime = 0.15;  // s
    static constexpr int kNarrowest = 96;       // px
    static constexpr int kWidest = 480;         // px
    static constexpr int kAtFirst = 160;        // px

  private:
    int width_ = kAtFirst;
    double pixels_ = 0;  // that fit; 0: not known
};

}  // namespace dapple
