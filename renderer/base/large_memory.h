// Large arrays in large pages. A model of millions of triangles fills a gigabyte once; in pages of
// 4 kB the system takes as long to hand it out as we do to fill it, and rays that hit far apart
// wait for addresses as well as for memory.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace dapple {

// A hint for memory that has not been used yet; without effect where the system knows no better.
void use_large_pages(void* data, size_t bytes);

// Room for `count` elements. A vector that is full already grows by half at least, so that adding
// many small parts stays cheap.
template <typename T>
void reserve_large(std::vector<T>& values, size_t count) {
    if (count <= values.capacity()) return;
    const size_t used = values.size();
    values.reserve(used == 0 ? count : std::max(count, used + used / 2));
    use_large_pages(values.data() + used, (values.capacity() - used) * sizeof(T));
}

}  // namespace dapple
