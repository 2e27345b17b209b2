// When passes stop, and what is told on the way.
#pragma once

#include <chrono>
#include <optional>

namespace dapple {

// Passes stop at whichever comes first; 0 means no such limit. With none of them: one pass.
struct PassLimits {
    int passes = 0;
    double seconds = 0;
    double noise_percent = 0;
};

struct Progress {
    int passes = 0;            // on the film
    int passes_now = 0;        // of them, made by this call
    double seconds = 0;        // since the first pass began
    double seconds_left = -1;  // by whichever limit comes first; negative: no limit known
    double rays_per_second = 0;
    // Standard error over the mean, of the typical pixel or of the worst meter, once there are
    // passes enough to know it.
    std::optional<double> noise_percent;
};

class Clock {
  public:
    double seconds() const {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
    }

  private:
    std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

bool reached_a_limit(const PassLimits& limits, const Progress& progress);

// Time left until the first of the limits, as the passes so far foretell.
double estimate_seconds_left(const PassLimits& limits, const Progress& progress);

}  // namespace dapple
