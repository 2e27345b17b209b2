#include "read_with_progress.h"

#include "interrupt.h"
#include "progress_line.h"

namespace dapple {

void set_default_limits(MeterOptions& options) {
    if (options.passes > 0 || options.seconds > 0 || options.noise_percent > 0) return;
    options.noise_percent = 1;
    options.seconds = 60;
}

MeterResult read_with_progress(const LoadedSet& set, MeterOptions options) {
    watch_for_interrupt();
    ProgressLine line;
    options.on_part = [&](const WorkPart& part) {
        line.show(part);
        return !interrupted();
    };
    options.on_pass = [&](const Progress& progress, const MeterFilm&) {
        line.show(progress);
        return !interrupted();
    };
    return read_meters(set.scene, set.world, options);
}

}  // namespace dapple
