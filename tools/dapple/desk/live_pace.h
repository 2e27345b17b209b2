// How large quick frames are, so that pictures follow the hand.
//
// A quick frame has a fine picture with coarse light (clean/finer_frame.h). It costs time before
// the first pixel, and for each pixel of both. These times are taken from the frames before. A
// slower set, or a machine that does other work too, gets coarser light, then a smaller picture.
#pragma once

#include <optional>
#include <vector>

namespace dapple {

struct QuickSize {
    int light_width = 0;  // px
    int step = 1;         // pixels of the picture across one of the light, odd; 1: a plain frame

    int width() const { return light_width * step; }
    bool operator==(const QuickSize&) const = default;
};

class LivePace {
  public:
    // `widest`: of the frame at rest, px. `shape`: height over width.
    QuickSize drag_size(int widest, double shape);
    // The first frame at rest, as wide as it, and a better one after it.
    QuickSize rest_size(int widest, double shape) const;
    static QuickSize better_rest_size(int widest);

    // What a frame took, in seconds: before its first pixel, and for its pixels.
    void learn(const QuickSize& size, double shape, double before_s, double for_pixels_s);

    static constexpr double kFrameTime = 0.2;  // s
    static constexpr double kRestTime = 0.35;  // s
    static constexpr int kWidest = 480;        // px, while something is dragged
    static constexpr int kLeastLight = 48;     // px

  private:
    double time_of(const QuickSize& size, double shape) const;

    std::optional<QuickSize> size_;
    double before_s_ = 0;
    double pixel_s_ = 0;  // for a pixel of the picture; 0: not known
};

}  // namespace dapple
