// When a frame that gets better is shown: after the first passes, then at growing intervals.
#pragma once

#include <algorithm>

namespace dapple {

class ShowSchedule {
  public:
    // `seconds`: since the work began.
    bool due(double seconds) {
        if (seconds < next_) return false;
        next_ = seconds + std::clamp(seconds / 4, 0.2, 5.0);
        return true;
    }

  private:
    double next_ = 0;
};

}  // namespace dapple
