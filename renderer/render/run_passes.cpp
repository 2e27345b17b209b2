#include "render/run_passes.h"

namespace dapple {

bool run_passes(const PassLimits& limits,
                const PassSteps& steps,
                const TotalCounts& total,
                WorkWatch& watch,
                Progress& progress) {
    const Clock clock;
    progress.preparing_s = watch.seconds();
    while (!reached_a_limit(limits, progress)) {
        const double per_pass =
            progress.passes_now > 0 ? progress.seconds / progress.passes_now : 0;
        watch.start_pass(progress.passes + 1, per_pass);
        progress.passes = steps.trace();
        if (watch.stopped()) break;
        if (limits.seconds > 0) watch.set_limit(limits.seconds);
        ++progress.passes_now;
        progress.seconds = clock.seconds();
        progress.rays_per_second = static_cast<double>(total.rays) / progress.seconds;
        progress.noise_percent = steps.noise_percent();
        if (steps.clean_noise_percent) progress.clean_noise_percent = steps.clean_noise_percent();
        progress.seconds_left = estimate_seconds_left(limits, progress);
        if (!steps.report()) return true;
    }
    progress.seconds = clock.seconds();
    return watch.stopped_by_report();
}

}  // namespace dapple
