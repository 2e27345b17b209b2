// Parallel loops over index blocks. A result must not depend on which thread takes a block: results
// go to places that belong to the index, or into integer sums.
#pragma once

#include <cstdint>
#include <functional>

namespace dapple {

// Calls body(first, last) for blocks that cover [0, count). Blocks have `block` indices, the last
// one perhaps fewer. Returns when all are done. Rethrows an exception of `body`.
void parallel_blocks(int64_t count,
                     int64_t block,
                     const std::function<void(int64_t, int64_t)>& body);

// Limits the threads of all parallel loops while it exists; 0 leaves the number to the system.
class ThreadLimit {
  public:
    explicit ThreadLimit(int threads);
    ~ThreadLimit();
    ThreadLimit(const ThreadLimit&) = delete;
    ThreadLimit& operator=(const ThreadLimit&) = delete;

  private:
    void* control_;
};

}  // namespace dapple
