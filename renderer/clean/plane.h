// A number for each pixel of a frame, rows from the top, and work on all pixels at once.
//
// Each result is computed for its pixel in a fixed order, so it is the same on any number of
// threads.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

namespace dapple {

struct Plane {
    int width = 0, height = 0;
    std::vector<float> values;

    Plane() = default;
    Plane(int columns, int rows, float value = 0)
        : width(columns),
          height(rows),
          values(static_cast<size_t>(columns) * static_cast<size_t>(rows), value) {}

    size_t size() const { return values.size(); }
    float* row(int y) {
        return values.data() + static_cast<size_t>(y) * static_cast<size_t>(width);
    }
    const float* row(int y) const {
        return values.data() + static_cast<size_t>(y) * static_cast<size_t>(width);
    }
    float& operator[](size_t i) { return values[i]; }
    float operator[](size_t i) const { return values[i]; }
};

// Calls body(y) for every row, on all cores.
void for_each_row(int height, const std::function<void(int y)>& body);

// Calls work(i) for the number of each pixel, on all cores.
template <class Work>
void for_each_pixel(const Plane& plane, const Work& work) {
    for_each_row(plane.height, [&](int y) {
        const size_t begin = static_cast<size_t>(y) * static_cast<size_t>(plane.width);
        for (size_t i = begin; i < begin + static_cast<size_t>(plane.width); ++i) work(i);
    });
}

// Makes a plane of value_at(i), i the number of the pixel.
template <class ValueAt>
Plane make_plane(int width, int height, const ValueAt& value_at) {
    Plane plane(width, height);
    for_each_pixel(plane, [&](size_t i) { plane[i] = static_cast<float>(value_at(i)); });
    return plane;
}

// Sums over the (2 radius + 1)² pixels around each pixel; those outside the frame are left out.
Plane box_sums(const Plane& from, int radius);

}  // namespace dapple
