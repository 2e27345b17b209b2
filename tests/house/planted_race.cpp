// Parallel blocks add to one variable without a lock: a race that the thread sanitizer must report.
// This shows that the sanitizer works. Exit code 0: the race was not reported.
#include "base/parallel.h"

int main() {
    const dapple::ThreadLimit limit(4);
    int64_t sum = 0;
    dapple::parallel_blocks(100'000, 10, [&](int64_t first, int64_t last) { sum += last - first; });
    return sum == 0;
}
