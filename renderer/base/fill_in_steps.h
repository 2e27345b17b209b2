// Large arrays that are filled in steps, so that the work can be stopped in between. The desk stops
// old work as soon as a thing is dragged, and filling 100 MB of new memory takes 100 ms or more.
#pragma once

#include <algorithm>
#include <vector>

#include "base/large_memory.h"
#include "base/parallel.h"

namespace dapple {

// Makes the array as long as `count`; the new elements are `value`. What it has stays. Calls
// stop_if_asked() every few megabytes.
template <typename T>
void grow_in_steps(std::vector<T>& values, size_t count, const T& value = T()) {
    constexpr size_t kStep = std::max<size_t>(1, (size_t{2} << 20U) / sizeof(T));
    if (count > values.capacity()) {
        std::vector<T> larger;
        reserve_large(larger, std::max(count, values.size() + values.size() / 2));
        for (size_t i = 0; i < values.size(); i += kStep) {
            stop_if_asked();
            const auto first = values.begin() + static_cast<std::ptrdiff_t>(i);
            const size_t some = std::min(kStep, values.size() - i);
            larger.insert(larger.end(), first, first + static_cast<std::ptrdiff_t>(some));
        }
        values = std::move(larger);
    }
    while (values.size() < count) {
        stop_if_asked();
        values.resize(std::min(count, values.size() + kStep), value);
    }
}

}  // namespace dapple
