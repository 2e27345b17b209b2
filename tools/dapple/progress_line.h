// The line that long work shows: passes, rays per second, noise, time left.
#pragma once

#include "render/render_frame.h"

namespace dapple {

class ProgressLine {
  public:
    ProgressLine();
    // On a terminal the line is renewed; elsewhere one is printed every few seconds.
    void show(const Progress& progress);
    void end();

  private:
    bool terminal_ = false;
    double next_ = 0;  // s, when the next line is due
    bool shown_ = false;
};

}  // namespace dapple
