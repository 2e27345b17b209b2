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

// Thrown where work was stopped before it had any result.
struct StoppedWork {};

// While it exists, every parallel loop that this thread starts calls should_stop() before each
// block, from any thread. If that is true, the loop throws StoppedWork after the blocks that are
// under way. Between loops this thread can look for itself with stop_if_asked().
class StopLoops {
  public:
    explicit StopLoops(std::function<bool()> should_stop);
    ~StopLoops();
    StopLoops(const StopLoops&) = delete;
    StopLoops& operator=(const StopLoops&) = delete;

  private:
    std::function<bool()> should_stop_;
    const std::function<bool()>* outer_;
};

// Throws StoppedWork if a StopLoops of this thread says so.
void stop_if_asked();
// The function of this thread's StopLoops, for loops in libraries; nullptr: there is none.
const std::function<bool()>* stops_of_this_thread();

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
