// Helpers for the OBJ tests.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <string_view>

#include "base/problems.h"
#include "set/models/model_description.h"
#include "set/obj/read_obj.h"

namespace dapple {

inline const std::string kModels = std::string(DAPPLE_SOURCE_DIR) + "/tests/set/obj/models/";

// Reads the text as if it were a file beside the test models.
inline ModelDescription read_lines(std::string_view text, Problems& problems) {
    return read_obj_text(text, kModels + "lines.obj", problems);
}

// "12:3: f: ..." : a problem without its folder and file.
inline std::string short_text(const Problem& problem) {
    const std::string text = to_string(problem);
    const size_t name = text.rfind('/', text.find(':'));
    return text.substr(text.find(':', name == std::string::npos ? 0 : name) + 1);
}

inline std::string first_problem(std::string_view text) {
    Problems problems;
    read_lines(text, problems);
    return problems.empty() ? "" : short_text(problems.all().front());
}

inline std::string first_note(std::string_view text) {
    Problems problems;
    read_lines(text, problems);
    return problems.notes().empty() ? "" : short_text(problems.notes().front());
}

inline bool contains(std::string_view text, std::string_view part) {
    return text.find(part) != std::string_view::npos;
}

using Vec3 = std::array<double, 3>;

// Half the cross product of two edges: area times normal.
inline Vec3 area_vector(const Vec3& a, const Vec3& b, const Vec3& c) {
    const Vec3 u{b[0] - a[0], b[1] - a[1], b[2] - a[2]};
    const Vec3 v{c[0] - a[0], c[1] - a[1], c[2] - a[2]};
    return {(u[1] * v[2] - u[2] * v[1]) / 2,
            (u[2] * v[0] - u[0] * v[2]) / 2,
            (u[0] * v[1] - u[1] * v[0]) / 2};
}

inline double dot(const Vec3& a, const Vec3& b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
inline double length(const Vec3& a) {
    return std::sqrt(dot(a, a));
}

inline double area_of(const ModelDescription& model, const ModelTriangle& triangle) {
    std::array<Vec3, 3> p;
    for (size_t i = 0; i < 3; ++i) {
        p[i] = model.positions[static_cast<size_t>(triangle.corners[i].position)];
    }
    return length(area_vector(p[0], p[1], p[2]));
}

// Whether every index of the description is valid.
inline bool is_sound(const ModelDescription& model) {
    const auto below = [](int32_t index, size_t count) {
        return index >= -1 && index < static_cast<int64_t>(count);
    };
    return std::all_of(model.triangles.begin(), model.triangles.end(), [&](const auto& triangle) {
        return below(triangle.material, model.materials.size()) &&
               std::all_of(triangle.corners.begin(), triangle.corners.end(), [&](const auto& c) {
                   return c.position >= 0 && below(c.position, model.positions.size()) &&
                          below(c.uv, model.uvs.size()) && below(c.normal, model.normals.size());
               });
    });
}

}  // namespace dapple
