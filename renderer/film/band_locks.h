// Locks of the film's bands of rows. One lock for all rows of a splat in a band is far cheaper than
// an atomic addition for each sum.
#pragma once

#include <atomic>
#include <cstddef>
#include <thread>
#include <vector>

namespace dapple {

class BandLocks {
    // Each lock has a cache line of its own.
    struct alignas(64) Lock {
        bool held = false;
    };

  public:
    explicit BandLocks(size_t bands) : locks_(bands) {}

    // Holds one band for this thread as long as it lives.
    class Guard {
      public:
        explicit Guard(Lock& lock) : held_(lock.held) {
            while (held_.exchange(true, std::memory_order_acquire)) {
                while (held_.load(std::memory_order_relaxed)) std::this_thread::yield();
            }
        }
        ~Guard() { held_.store(false, std::memory_order_release); }
        Guard(const Guard&) = delete;
        Guard& operator=(const Guard&) = delete;

      private:
        std::atomic_ref<bool> held_;
    };
    [[nodiscard]] Guard hold(size_t band) { return Guard(locks_[band]); }

  private:
    std::vector<Lock> locks_;
};

}  // namespace dapple
