// A number for each pixel of a frame, rows from the top.
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

    float* row(int y) { return values.data() + static_cast<size_t>(y) * static_cast<size_t>(width); }
    const float* row(int y) const {
        return values.data() + static_cast<size_t>(y) * static_cast<size_t>(width);
    }
    float& operator[](size_t i) { return values[i]; }
    float operator[](size_t i) const { return values[i]; }
};

// Calls body(y) for every row, on all cores.
void for_each_row(int height, const std::function<void(int y)>& body);

// Sums over the (2 radius + 1)² pixels around each pixel; those outside the frame are left out.
void make_box_sums(const Plane& from, int radius, Plane& to);

}  // namespace dapple
