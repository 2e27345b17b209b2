// Watches long work while it runs: reports how far it is, and stops it.
//
// Work is done in steps, and a step in blocks (base/parallel.h). Before each block its thread calls
// next_block(). If that returns false, the block is left out, and so are all later ones: the step
// then ends within the time of one block on each thread. A pass that is stopped has added only to
// its own sums, so the film can drop it.
//
// Work stops when the report returns false, or at the time limit. A pass that is expected to end
// soon after the limit is finished (kGrace).
#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <limits>
#include <mutex>

#include "base/parallel.h"
#include "render/pass_limits.h"

namespace dapple {

class WorkWatch {
  public:
    // `report` is called a few times per second, by one thread at a time. It may be empty.
    explicit WorkWatch(std::function<bool(const WorkPart&)> report = {},
                       double report_every_s = kReportEvery);

    double seconds() const { return clock_.seconds(); }

    // Sets the time limit, in seconds of this watch's clock.
    void set_limit(double seconds) { limit_ = seconds; }
    // Starts pass number `pass`, from 1. `seconds`: its expected duration; 0: not known.
    void start_pass(int pass, double seconds);
    // Starts a step of `blocks` blocks.
    void start_step(WorkStep step, int64_t blocks = 1);

    // Called by any thread before each block of the step. False: the work is stopped.
    bool next_block();
    // As next_block() for work without a result so far: throws StoppedWork.
    void next_block_or_throw() {
        if (!next_block()) throw StoppedWork();
    }

    bool stopped() const { return stopped_; }
    bool stopped_by_report() const { return stopped_by_report_; }

    // s after the limit in which a pass may be finished
    static constexpr double kGrace = 1.5;
    static constexpr double kReportEvery = 0.25;  // s

  private:
    bool may_go_on(double now, int64_t done) const;
    bool report(double now, int64_t done);

    Clock clock_;
    std::function<bool(const WorkPart&)> report_;
    double report_every_;
    double limit_ = std::numeric_limits<double>::infinity();
    double expected_end_ = 0;  // of the pass, s; 0: not known
    WorkPart part_;
    int64_t blocks_ = 1;
    double step_start_ = 0;
    std::atomic<int64_t> begun_ = 0;  // blocks of this step
    std::atomic<bool> stopped_ = false;
    std::atomic<bool> stopped_by_report_ = false;
    std::atomic<double> next_report_ = 0;
    std::mutex reporting_;
};

}  // namespace dapple
