#include "render/packing/column_under.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

bool covers(const Column& column, const Vec2& from_middle) {
    if (column.round) return glm::length(from_middle) <= 0.5F * column.size.x;
    const Vec2 half = 0.5F * column.size;
    return std::abs(from_middle.x) <= half.x && std::abs(from_middle.y) <= half.y;
}

}  // namespace

const Column* column_under(const Scene& scene, const Point& base) {
    const auto found =
        std::find_if(scene.columns.begin(), scene.columns.end(), [&](const Column& column) {
            const Vec3 way = base - column.position;
            return std::abs(way.y - column.height) < kStandsOn &&
                   covers(column, Vec2(way.x, way.z));
        });
    return found == scene.columns.end() ? nullptr : &*found;
}

}  // namespace dapple
