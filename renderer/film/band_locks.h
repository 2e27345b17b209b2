// One lock for each of the film's bands of rows (PassSums::band_of). A thread locks a band once and
// then adds all rows of a splat that are in it. That is far cheaper than an atomic addition for
// each of the film's sums.
#pragma once

#include <atomic>
#include <cstddef>
#include <thread>
#include <vector>

namespace dapple {

class BandLocks {
    // Each lock has a cache line of its own, so that threads in other bands do not share it.
    struct alignas(64) Lock {
        std::atomic<bool> held = false;
    };

  public:
    explicit BandLocks(size_t bands) : locks_(bands) {}

    // Locks one band for this thread until the Guard is destroyed.
    class Guard {
      public:
        explicit Guard(Lock& lock) : held_(lock.held) {
            // The outer loop tries to take the lock. The inner loop waits until the lock looks
            // free. It only reads, because each exchange would take the cache line from the thread
            // that holds the lock.
            while (held_.exchange(true, std::memory_order_acquire)) {
                while (held_.load(std::memory_order_relaxed)) std::this_thread::yield();
            }
        }
        ~Guard() { held_.store(false, std::memory_order_release); }
        Guard(const Guard&) = delete;
        Guard& operator=(const Guard&) = delete;

      private:
        std::atomic<bool>& held_;
    };
    [[nodiscard]] Guard hold(size_t band) { return Guard(locks_[band]); }

  private:
    std::vector<Lock> locks_;
};

}  // namespace dapple
