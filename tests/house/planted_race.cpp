// Blocks that count into one variable without care: a race that the thread sanitizer has to report.
// Shows that its silence about a render is worth something. Exits 0 if it goes unseen.
#include "base/parallel.h"

int main() {
    const dapple::ThreadLimit limit(4);
    int64_t sum = 0;
    dapple::parallel_blocks(100'000, 10, [&](int64_t first, int64_t last) { sum += last - first; });
    return sum == 0;
}
