// What a run of walks did, for its outputs.
#pragma once

#include <string>

#include "output/write_stats.h"

namespace dapple {

// Of a frame or of meters alone: `options` and `result` are those of either.
template <class Options, class Result>
RenderReport make_report(const Options& options,
                         const std::string& transport,
                         int passes,
                         const Result& result) {
    RenderReport report;
    report.passes = passes;
    report.seconds = result.progress.seconds;
    report.rays = result.rays;
    report.seed = options.seed;
    report.nonfinite_samples = result.nonfinite_samples;
    report.stopped_early = result.stopped_early;
    report.transport = transport;
    report.threads = options.threads;
    return report;
}

}  // namespace dapple
