// The report of a run of passes, for its outputs.
#pragma once

#include <string>

#include "develop/run_report.h"

namespace dapple {

// `options` and `result` are those of a frame or those of light meters alone.
template <class Options, class Result>
RunReport make_run_report(const Options& options,
                          const std::string& transport,
                          int passes,
                          const Result& result) {
    RunReport report;
    report.passes = passes;
    report.seconds = result.progress.seconds;
    report.rays = result.rays;
    report.seed = options.seed;
    report.nonfinite_samples = result.nonfinite_samples;
    report.stopped_early = result.stopped_early;
    report.transport = transport;
    report.threads = options.threads;
    report.noise_percent = result.progress.noise_percent;
    return report;
}

}  // namespace dapple
