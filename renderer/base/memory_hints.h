// Hints to the processor about memory, in one place so that the algorithms read as in their papers.
//
// None of these functions changes a result. The gains were measured on the bottle in a room
// (tools/bench/README.md), some of them only together:
//   prefetch_to_read on facets, photons and merge cells, and load_alone: 0.95 of the time of a pass
//     on one thread;
//   prefetch_to_write on the film's rows, with splats added late: 0.97 of the time of a pass;
//   load_block and store_block on a tile of the film: part of the 0.96 that 32-bit sums gained.
#pragma once

#include <cstring>

namespace dapple {

// Starts to load the cache line at `address`, which is read soon.
inline void prefetch_to_read(const void* address) {
    __builtin_prefetch(address, 0);
}

// Starts to load the cache line at `address`, which is written soon.
inline void prefetch_to_write(const void* address) {
    __builtin_prefetch(address, 1);
}

// Loads a float by itself. The compiler would otherwise load it together with its neighbours as one
// vector; if one of those was stored a moment ago, that load waits until the store has reached the
// cache.
inline float load_alone(float x) {
#if defined(__x86_64__)
    asm("" : "+x"(x));
#endif
    return x;
}

// Loads a whole value of type T from `address`, which need not be aligned, in as few instructions
// as the processor has for its size.
template <typename T>
T load_block(const void* address) {
    T block;
    std::memcpy(&block, address, sizeof(block));
    return block;
}

// Stores the whole of `block` at `address`, as load_block loads it.
template <typename T>
void store_block(void* address, const T& block) {
    std::memcpy(address, &block, sizeof(block));
}

}  // namespace dapple
