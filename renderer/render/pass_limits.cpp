#include "render/pass_limits.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "render/work_watch.h"

namespace dapple {

namespace {

// All seconds that count towards the limit.
double seconds_of(const Progress& progress) {
    return progress.preparing_s + progress.seconds;
}

bool has_limit(const PassLimits& limits) {
    return limits.passes > 0 || limits.seconds > 0 || limits.noise_percent > 0 ||
           limits.clean_noise_percent > 0;
}

bool is_below(double limit, const std::optional<double>& noise) {
    return limit > 0 && noise && *noise <= limit;
}

}  // namespace

bool reached_a_limit(const PassLimits& limits, const Progress& progress) {
    if (limits.passes > 0 && progress.passes >= limits.passes) return true;
    if (progress.passes_now == 0) return false;
    if (!has_limit(limits)) return true;
    // A pass is started only if at least half of it is expected to be within the limit, and if it
    // is expected to end soon after.
    if (limits.seconds > 0) {
        const double per_pass = progress.seconds / progress.passes_now;
        const double over = std::min(0.5 * per_pass, WorkWatch::kGrace);
        if (seconds_of(progress) + per_pass - over >= limits.seconds) return true;
    }
    return is_below(limits.noise_percent, progress.noise_percent) ||
           is_below(limits.clean_noise_percent, progress.clean_noise_percent);
}

double estimate_seconds_left(const PassLimits& limits, const Progress& progress) {
    double left = kInfinity;
    const double per_pass = progress.seconds / progress.passes_now;
    if (limits.passes > 0) left = std::min(left, (limits.passes - progress.passes) * per_pass);
    if (limits.seconds > 0) left = std::min(left, limits.seconds - seconds_of(progress));
    if (limits.noise_percent > 0 && progress.noise_percent) {
        const double needed =
            progress.passes * std::pow(*progress.noise_percent / limits.noise_percent, 2);
        left = std::min(left, (needed - progress.passes) * per_pass);
    }
    return std::isfinite(left) ? std::max(0.0, left) : -1;
}

}  // namespace dapple
