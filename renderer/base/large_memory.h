// Large arrays in large pages. A model of millions of triangles fills a gigabyte once. In pages of
// 4 kB the system needs as long to provide that memory as the program needs to fill it, and rays
// whose hits are far apart wait for the translation of addresses as well as for memory.
#pragma once

#include <algorithm>
#include <cstddef>
#include <new>
#include <utility>
#include <vector>

namespace dapple {

// Requests large pages for memory that has not been used yet. Does nothing where the system has
// none.
void use_large_pages(void* data, size_t bytes);

// Memory of zeros that begins at a cache line. Throws std::bad_alloc.
void* allocate_zeros(size_t bytes);
void free_zeros(void* data, size_t bytes);

// Reserves room for at least `count` elements. A vector that holds elements grows by at least half,
// so that adding many small parts stays cheap.
template <typename T, typename Allocator>
void reserve_large(std::vector<T, Allocator>& values, size_t count) {
    if (count <= values.capacity()) return;
    const size_t used = values.size();
    values.reserve(used == 0 ? count : std::max(count, used + used / 2));
    use_large_pages(values.data() + used, (values.capacity() - used) * sizeof(T));
}

// Allocates memory that begins at a cache line. Eight numbers of eight bytes are then in one line
// instead of two, and one instruction stores them.
//
// Memory comes as zeros, and a new element without a value is left as it is. So an array of
// gigabytes is made at once, and the threads that use it first provide its pages. It must be filled
// with resize() once: an element that is removed and added again keeps its old value.
template <typename T>
struct LineAllocator {
    using value_type = T;
    LineAllocator() = default;
    template <typename U>
    explicit LineAllocator(const LineAllocator<U>&) {}
    T* allocate(size_t count) { return static_cast<T*>(allocate_zeros(count * sizeof(T))); }
    void deallocate(T* data, size_t count) { free_zeros(data, count * sizeof(T)); }
    template <typename U>
    void construct(U*) {}
    template <typename U, typename... Arguments>
    void construct(U* at, Arguments&&... arguments) {
        ::new (static_cast<void*>(at)) U(std::forward<Arguments>(arguments)...);
    }
    friend bool operator==(const LineAllocator&, const LineAllocator&) { return true; }
};

}  // namespace dapple
