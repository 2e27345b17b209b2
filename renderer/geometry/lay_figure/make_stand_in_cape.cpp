#include "geometry/lay_figure/make_stand_in_cape.h"

#include <cmath>

namespace dapple {

namespace {

constexpr uint32_t kColumns = 176;  // 16 to a fold
constexpr uint32_t kShoulderRows = 16;
constexpr uint32_t kHangingRows = 24;
constexpr uint32_t kRows = kShoulderRows + kHangingRows;
constexpr float kFolds = 11;
constexpr float kFoldDepth = 0.05F;  // of the half axes, at the hem

constexpr float kShoulder = 0.800F;  // height at which the cape begins to hang
constexpr float kRise = 0.062F;      // of the collar over kShoulder

struct Section {
    float height;
    Vec2 half_axes;
    float fold;
};

// `row` counts downwards from the collar.
Section section_at(float row, float hem) {
    if (row <= kShoulderRows) {
        const float angle = 0.5F * kPiF * row / kShoulderRows;
        return {kShoulder + kRise * std::cos(angle),
                Vec2(0.050F) + std::sin(angle) * Vec2(0.115F, 0.048F),
                0};
    }
    const float s = (row - kShoulderRows) / kHangingRows;
    return {kShoulder + s * (hem - kShoulder),
            Vec2(0.165F, 0.098F) + s * s * Vec2(0.030F, 0.040F),
            kFoldDepth * s};
}

Point point_at(float row, float column, float hem) {
    const Section section = section_at(row, hem);
    const float phi = 2 * kPiF * column / kColumns;
    const Vec2 at = (1 + section.fold * std::sin(kFolds * phi)) * section.half_axes *
                    Vec2(std::cos(phi), std::sin(phi));
    return {at.x, section.height, at.y};
}

// The outward normal, from differences over a tenth of a row and column each way.
Normal normal_at(float row, float column, float hem) {
    constexpr float kStep = 0.1F;
    const float up = std::max(row - kStep, 0.0F);
    const float down = std::min(row + kStep, static_cast<float>(kRows));
    const Vec3 downward = point_at(down, column, hem) - point_at(up, column, hem);
    const Vec3 around = point_at(row, column + kStep, hem) - point_at(row, column - kStep, hem);
    return glm::normalize(glm::cross(around, downward));
}

}  // namespace

Mesh make_cape(float hem) {
    Mesh mesh;
    for (uint32_t row = 0; row <= kRows; ++row) {
        for (uint32_t column = 0; column < kColumns; ++column) {
            const auto r = static_cast<float>(row);
            const auto c = static_cast<float>(column);
            mesh.positions.push_back(point_at(r, c, hem));
            mesh.normals.push_back(normal_at(r, c, hem));
        }
    }
    const auto at = [](uint32_t row, uint32_t column) {
        return row * kColumns + column % kColumns;
    };
    for (uint32_t row = 0; row < kRows; ++row) {
        for (uint32_t column = 0; column < kColumns; ++column) {
            mesh.triangles.emplace_back(at(row, column), at(row, column + 1), at(row + 1, column));
            mesh.triangles.emplace_back(
                at(row, column + 1), at(row + 1, column + 1), at(row + 1, column));
        }
    }
    return mesh;
}

}  // namespace dapple
