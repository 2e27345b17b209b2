#include "base/large_memory.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdint>

using namespace dapple;

TEST_CASE("new memory in lines is zero, begins at a cache line and keeps values as it grows") {
    for (const size_t count : {size_t{3}, size_t{1} << 20U}) {  // below and above its own pages
        CAPTURE(count);
        // The second array may get the memory that the first one has filled and freed.
        for (const int64_t value : {7, 8}) {
            std::vector<int64_t, LineAllocator<int64_t>> numbers;
            reserve_large(numbers, count);
            numbers.resize(count);
            CHECK(reinterpret_cast<uintptr_t>(numbers.data()) % 64 == 0);
            CHECK(std::all_of(numbers.begin(), numbers.end(), [](int64_t n) { return n == 0; }));
            std::fill(numbers.begin(), numbers.end(), value);
            numbers.push_back(9);
            CHECK(numbers.front() == value);
            CHECK(numbers.back() == 9);
        }
    }
}
