#include "render/run_passes.h"

namespace dapple {

bool run_passes(const PassLimits& limits,
                const PassSteps& steps,
                const TotalCounts& total,
                Progress& progress) {
    const Clock clock;
    while (!reached_a_limit(limits, progress)) {
        progress.passes = steps.trace();
        ++progress.passes_now;
        progress.seconds = clock.seconds();
        progress.rays_per_second = static_cast<double>(total.rays) / progress.seconds;
        progress.noise_percent = steps.noise_percent();
        if (steps.clean_noise_percent) progress.clean_noise_percent = steps.clean_noise_percent();
        progress.seconds_left = estimate_seconds_left(limits, progress);
        if (!steps.report()) return true;
    }
    return false;
}

}  // namespace dapple
