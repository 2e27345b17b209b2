#include "lenses/ghost_canvas.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

// A running mean of 2 half + 1 values along a line of the canvas.
void blur_line(GroupXyz* first, size_t step, int count, int half, std::vector<GroupXyz>& line) {
    line.resize(static_cast<size_t>(count));
    for (int i = 0; i < count; ++i)
        line[static_cast<size_t>(i)] = first[static_cast<size_t>(i) * step];
    GroupXyz sum{};
    const auto add = [&](int i, float sign) {
        if (i < 0 || i >= count) return;
        for (size_t g = 0; g < kMostLensGroups; ++g)
            sum[g] += sign * line[static_cast<size_t>(i)][g];
    };
    for (int i = -half; i < half; ++i) add(i, 1);
    const float per = 1.0F / static_cast<float>(2 * half + 1);
    for (int i = 0; i < count; ++i) {
        add(i + half, 1);
        for (size_t g = 0; g < kMostLensGroups; ++g) {
            first[static_cast<size_t>(i) * step][g] = glm::max(per * sum[g], glm::vec3(0));
        }
        add(i - half, -1);
    }
}

}  // namespace

GhostCanvas::GhostCanvas(const PixelGrid& grid, size_t group_count)
    : pixels(grid),
      groups(group_count),
      values(static_cast<size_t>(grid.width) * static_cast<size_t>(grid.height)) {}

void GhostCanvas::use(const CanvasRect& rect) {
    const CanvasRect in{std::max(rect.x0, 0),
                        std::max(rect.y0, 0),
                        std::min(rect.x1, pixels.width),
                        std::min(rect.y1, pixels.height)};
    if (in.is_empty()) return;
    if (used.is_empty()) {
        used = in;
        return;
    }
    used = {std::min(used.x0, in.x0),
            std::min(used.y0, in.y0),
            std::max(used.x1, in.x1),
            std::max(used.y1, in.y1)};
}

void GhostCanvas::clear(size_t group_count) {
    for (int y = used.y0; y < used.y1; ++y) {
        const auto row = values.begin() + static_cast<std::ptrdiff_t>(y) * pixels.width;
        std::fill(row + used.x0, row + used.x1, GroupXyz{});
    }
    used = {};
    groups = group_count;
}

void GhostCanvas::add(const GhostCanvas& other) {
    use(other.used);
    for (int y = other.used.y0; y < other.used.y1; ++y) {
        for (int x = other.used.x0; x < other.used.x1; ++x) {
            const auto i =
                static_cast<size_t>(y) * static_cast<size_t>(pixels.width) + static_cast<size_t>(x);
            for (size_t g = 0; g < kMostLensGroups; ++g) values[i][g] += other.values[i][g];
        }
    }
}

void GhostCanvas::blur(double radius) {
    // Two running means of this width have the spread of a disc.
    const auto half = static_cast<int>(std::lround(std::sqrt(0.375) * radius));
    if (half < 1 || used.is_empty()) return;
    std::vector<GroupXyz> line;
    const auto width = static_cast<size_t>(pixels.width);
    const auto at = [&](int x, int y) {
        return &values[static_cast<size_t>(y) * width + static_cast<size_t>(x)];
    };
    for (int twice = 0; twice < 2; ++twice) {
        use({used.x0 - half, used.y0 - half, used.x1 + half, used.y1 + half});
        const CanvasRect r = used;
        for (int y = r.y0; y < r.y1; ++y) blur_line(at(r.x0, y), 1, r.x1 - r.x0, half, line);
        for (int x = r.x0; x < r.x1; ++x) blur_line(at(x, r.y0), width, r.y1 - r.y0, half, line);
    }
}

}  // namespace dapple
