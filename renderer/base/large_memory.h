// Large arrays in large pages. A model of millions of triangles fills a gigabyte once; in pages of
// 4 kB the system takes as long to hand it out as we do to fill it, and rays that hit far apart
// wait for addresses as well as for memory.
#pragma once

#include <algorithm>
#include <cstddef>
#include <new>
#include <vector>

namespace dapple {

// A hint for memory that has not been used yet; without effect where the system knows no better.
void use_large_pages(void* data, size_t bytes);

// Room for `count` elements. A vector that is full already grows by half at least, so that adding
// many small parts stays cheap.
template <typename T, typename Allocator>
void reserve_large(std::vector<T, Allocator>& values, size_t count) {
    if (count <= values.capacity()) return;
    const size_t used = values.size();
    values.reserve(used == 0 ? count : std::max(count, used + used / 2));
    use_large_pages(values.data() + used, (values.capacity() - used) * sizeof(T));
}

// Memory that begins with a line of the cache: eight numbers of eight bytes are then one line where
// they would be two, and are stored at once.
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
