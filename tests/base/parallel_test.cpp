#include "base/parallel.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <atomic>
#include <stdexcept>
#include <vector>

namespace dapple {

TEST_CASE("parallel blocks cover every index once") {
    for (const int64_t count : {0, 1, 7, 64, 1000, 10007}) {
        for (const int64_t block : {1, 3, 64, 100000}) {
            CAPTURE(count);
            CAPTURE(block);
            std::vector<int> visits(static_cast<size_t>(count), 0);
            parallel_blocks(count, block, [&](int64_t first, int64_t last) {
                for (int64_t i = first; i < last; ++i) ++visits[static_cast<size_t>(i)];
            });
            CHECK(std::all_of(visits.begin(), visits.end(), [](int n) { return n == 1; }));
        }
    }
}

TEST_CASE("blocks start at multiples of their size and only the last is shorter") {
    std::atomic<int> blocks = 0;
    std::atomic<bool> aligned = true;
    parallel_blocks(1000, 64, [&](int64_t first, int64_t last) {
        ++blocks;
        if (first % 64 != 0 || last != std::min<int64_t>(1000, first + 64)) aligned = false;
    });
    CHECK(blocks == 16);
    CHECK(aligned);
}

TEST_CASE("an exception in a block is rethrown by the loop") {
    CHECK_THROWS_AS(parallel_blocks(100,
                                    1,
                                    [](int64_t first, int64_t) {
                                        if (first == 42) throw std::runtime_error("block 42");
                                    }),
                    std::runtime_error);
}

TEST_CASE("a limit of one thread runs one block at a time") {
    const ThreadLimit limit(1);
    std::atomic<int> running = 0;
    std::atomic<bool> alone = true;
    parallel_blocks(200, 1, [&](int64_t, int64_t) {
        if (++running > 1) alone = false;
        --running;
    });
    CHECK(alone);
}

}  // namespace dapple
