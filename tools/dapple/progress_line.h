// The line that shows the progress of long work: passes, rays per second, noise, time left.
#pragma once

#include "render/render_frame.h"

namespace dapple {

class ProgressLine {
  public:
    ProgressLine();
    // Overwrites the line on a terminal; elsewhere prints a new line every ten seconds.
    void show(const Progress& progress);
    void end();

  private:
    bool terminal_ = false;
    double next_ = 0;  // s, when the next line is due
    bool shown_ = false;
};

}  // namespace dapple
