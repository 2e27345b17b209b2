#include "base/parallel.h"

#include <tbb/global_control.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <utility>

#include "base/kept_parts.h"

#ifdef DAPPLE_THREAD_SANITIZER
#include <sanitizer/tsan_interface.h>
#endif

namespace dapple {

namespace {

// The thread sanitizer cannot see inside oneTBB. So it does not see that the caller's writes come
// before the blocks, and the blocks' writes before the caller's next step. hand_over and take_over
// report this order to it; in other builds they are empty. Each direction has its own mark, so that
// no order between blocks is reported.
struct Handover {
    char out = 0;
    char back = 0;
};

#ifdef DAPPLE_THREAD_SANITIZER
void hand_over(char& mark) {
    __tsan_release(&mark);
}
void take_over(char& mark) {
    __tsan_acquire(&mark);
}
#else
void hand_over(char&) {}
void take_over(char&) {}
#endif

// Of this thread's StopLoops; nullptr: nothing stops its loops.
thread_local const std::function<bool()>* stops_loops = nullptr;

}  // namespace

StopLoops::StopLoops(std::function<bool()> should_stop)
    : should_stop_(std::move(should_stop)), outer_(stops_loops) {
    stops_loops = &should_stop_;
}

StopLoops::~StopLoops() {
    stops_loops = outer_;
}

void stop_if_asked() {
    if (stops_loops && (*stops_loops)()) throw StoppedWork();
}

const std::function<bool()>* stops_of_this_thread() {
    return stops_loops;
}

void parallel_blocks(int64_t count,
                     int64_t block,
                     const std::function<void(int64_t, int64_t)>& body) {
    const int64_t blocks = (count + block - 1) / block;
    Handover handover;
    const std::function<bool()>* const should_stop = stops_loops;
    PartShelf* const shelf = shelf_of_this_thread();
    hand_over(handover.out);
    tbb::parallel_for(
        tbb::blocked_range<int64_t>(0, blocks, 1),
        [&](const tbb::blocked_range<int64_t>& range) {
            take_over(handover.out);
            const UseShelf use(shelf);
            for (int64_t i = range.begin(); i < range.end(); ++i) {
                if (should_stop && (*should_stop)()) throw StoppedWork();
                body(i * block, std::min(count, (i + 1) * block));
            }
            hand_over(handover.back);
        },
        tbb::simple_partitioner());
    take_over(handover.back);
}

ThreadLimit::ThreadLimit(int threads)
    : control_(threads > 0 ? new tbb::global_control(tbb::global_control::max_allowed_parallelism,
                                                     static_cast<size_t>(threads))
                           : nullptr) {}

ThreadLimit::~ThreadLimit() {
    delete static_cast<tbb::global_control*>(control_);
}

}  // namespace dapple
