// The limits at which passes stop, and the progress that is reported.
#pragma once

#include <chrono>
#include <optional>

namespace dapple {

// Passes stop at the first limit that is reached. 0: no such limit. Without any limit, one pass is
// made.
struct PassLimits {
    int passes = 0;
    double seconds = 0;
    double noise_percent = 0;
    double clean_noise_percent = 0;  // of the clean frame
};

// What is being done.
enum class WorkStep {
    kAiming,      // lamps at glass
    kFirstHits,   // what each pixel sees
    kSeenPoints,  // the same behind smooth glass, and within the pixels at rims
    kPilotWalks,
    kFilm,  // memory for the film, and the planes that its pixels see
    kLightWalks,
    kMeterWalks,
    kSorting,  // of the light walks' photons and vertices
    kCameraWalks,
};

struct WorkPart {
    int pass = 0;  // from 1; 0: before the first pass
    WorkStep step = WorkStep::kAiming;
    double share = 0;  // of the step that is done, 0 to 1
};

struct Progress {
    int passes = 0;            // on the film
    int passes_now = 0;        // made by this call
    double preparing_s = 0;    // before the first pass
    double seconds = 0;        // since the first pass started
    double seconds_left = -1;  // until the first limit; negative: not known
    double rays_per_second = 0;
    // Standard error over the mean, of the typical pixel or of the worst meter. Nothing until there
    // are enough passes.
    std::optional<double> noise_percent;
    // The same of the clean frame, as far as it was last made.
    std::optional<double> clean_noise_percent;
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

// Time left until the first limit, estimated from the passes so far. -1 if it is not known.
double estimate_seconds_left(const PassLimits& limits, const Progress& progress);

}  // namespace dapple
