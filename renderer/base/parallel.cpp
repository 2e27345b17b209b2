#include "base/parallel.h"

#include <tbb/global_control.h>
#include <tbb/parallel_for.h>

#include <algorithm>

namespace dapple {

void parallel_blocks(int64_t count,
                     int64_t block,
                     const std::function<void(int64_t, int64_t)>& body) {
    const int64_t blocks = (count + block - 1) / block;
    tbb::parallel_for(
        tbb::blocked_range<int64_t>(0, blocks, 1),
        [&](const tbb::blocked_range<int64_t>& range) {
            for (int64_t i = range.begin(); i < range.end(); ++i) {
                body(i * block, std::min(count, (i + 1) * block));
            }
        },
        tbb::simple_partitioner());
}

ThreadLimit::ThreadLimit(int threads)
    : control_(threads > 0 ? new tbb::global_control(tbb::global_control::max_allowed_parallelism,
                                                     static_cast<size_t>(threads))
                           : nullptr) {}

ThreadLimit::~ThreadLimit() {
    delete static_cast<tbb::global_control*>(control_);
}

}  // namespace dapple
