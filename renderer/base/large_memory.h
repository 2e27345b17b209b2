// Large arrays in large pages. A model of millions of triangles fills a gigabyte once. In pages of
// 4 kB the system needs as long to provide that memory as the program needs to fill it, and rays
// whose hits are far apart wait for the translation of addresses as well as for memory.
#pragma once

#include <algorithm>
#include <cstddef>
#include <new>
#include <vector>

namespace dapple {

// Requests large pages for memory that has not been used yet. Does nothing where the system has
// none.
void use_large_pages(void* data, size_t bytes);

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
template <typename T>
struct LineAllocator {
    using value_type = T;
    static constexpr std::align_val_t kLine{64};  // bytes

    LineAllocator() = default;
    template <typename U>
    explicit LineAllocator(const LineAllocator<U>&) {}
    T* allocate(size_t count) { return static_cast<T*>(::operator new(count * sizeof(T), kLine)); }
    void deallocate(T* data, size_t) { ::operator delete(data, kLine); }
    friend bool operator==(const LineAllocator&, const LineAllocator&) { return true; }
};

}  // namespace dapple
