#include "render/work_watch.h"

#include <algorithm>
#include <utility>

namespace dapple {

WorkWatch::WorkWatch(std::function<bool(const WorkPart&)> report, double report_every_s)
    : report_(std::move(report)), report_every_(report_every_s) {}

void WorkWatch::start_pass(int pass, double seconds) {
    part_.pass = pass;
    expected_end_ = seconds > 0 ? clock_.seconds() + seconds : 0;
}

void WorkWatch::start_step(WorkStep step, int64_t blocks) {
    part_.step = step;
    part_.share = 0;
    blocks_ = std::max<int64_t>(1, blocks);
    begun_ = 0;
    step_start_ = clock_.seconds();
}

bool WorkWatch::next_block() {
    if (stopped_) return false;
    const int64_t done = begun_.fetch_add(1, std::memory_order_relaxed);
    const double now = clock_.seconds();
    const bool goes_on =
        (now < limit_ || may_go_on(now, done)) && (now < next_report_ || report(now, done));
    if (!goes_on) stopped_ = true;
    return goes_on;
}

// After the limit: whether the pass is expected to end within the grace.
bool WorkWatch::may_go_on(double now, int64_t done) const {
    const double latest = limit_ + kGrace;
    if (now >= latest) return false;
    if (part_.step == WorkStep::kCameraWalks && done > 0) {  // the last step of a pass
        const double per_block = (now - step_start_) / static_cast<double>(done);
        return now + per_block * static_cast<double>(blocks_ - done) < latest;
    }
    return expected_end_ > 0 && expected_end_ < latest;
}

bool WorkWatch::report(double now, int64_t done) {
    if (!report_) return true;
    const std::unique_lock lock(reporting_, std::try_to_lock);
    if (!lock || now < next_report_) return true;  // another thread reports, or has just done it
    next_report_ = now + report_every_;
    WorkPart part = part_;
    part.share = static_cast<double>(done) / static_cast<double>(blocks_);
    if (report_(part)) return true;
    stopped_by_report_ = true;
    return false;
}

}  // namespace dapple
