// Keeps what is done again and again, such as a checkpoint, below a share of the working time.
//
// After each time it waits as long as the last one's cost divided by the share, so the cost is
// measured on this disk, for this film, now.
#pragma once

#include <algorithm>

namespace dapple {

// Of checkpoints: what a crash costs is then a hundred times the last one's cost.
inline constexpr double kCheckpointShare = 0.01;
inline constexpr double kCheckpointEvery = 10;  // s, at least

class Pace {
  public:
    // `share` of the time; `least_s` between two times and before the first. `now`: seconds of a
    // clock that stands still while the machine sleeps, as in all calls.
    Pace(double share, double least_s, double now)
        : share_(share), least_(least_s), next_(now + least_s) {}

    bool is_due(double now) const { return now >= next_; }
    // It was done, from `begin` to `now`.
    void done(double begin, double now) {
        cost_ = now - begin;
        next_ = now + std::max(least_, cost_ / share_);
    }
    double last_cost() const { return cost_; }  // s; 0: not done yet

  private:
    double share_;
    double least_;
    double next_;
    double cost_ = 0;
};

}  // namespace dapple
