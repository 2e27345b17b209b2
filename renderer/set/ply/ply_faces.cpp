#include "set/ply/ply_faces.h"

#include <algorithm>
#include <cmath>

namespace dapple {

bool PlyFaces::is_finite(const ModelCorner& corner) const {
    const auto& p = model_.positions[static_cast<size_t>(corner.position)];
    return std::all_of(p.begin(), p.end(), [](double x) { return std::abs(x) < kFarthestVertex; });
}

bool PlyFaces::read_corner(const Row& row, size_t i, ModelCorner& corner) {
    const double index = row.corners[i];
    const auto total = static_cast<double>(model_.positions.size());
    if (!(index >= 0 && index < total) || index != std::floor(index)) {
        char text[32];
        std::snprintf(text, sizeof text, "%.10g", index);
        report_.problem(report_.place(row.line, 0),
                        "face",
                        "number " + std::to_string(row.number) + " uses vertex " + text +
                            "; there are " + std::to_string(model_.positions.size()) +
                            ", counted from 0",
                        {"vertex", "faces"});
        return false;
    }
    corner.position = static_cast<int32_t>(index);
    if (!model_.normals.empty()) corner.normal = corner.position;
    if (uvs_of_vertices_) corner.uv = corner.position;
    if (row.uvs.size() == 2 * row.corners.size()) {
        corner.uv = static_cast<int32_t>(model_.uvs.size());
        model_.uvs.push_back(
            {static_cast<float>(row.uvs[2 * i]), static_cast<float>(row.uvs[2 * i + 1])});
    }
    return true;
}

void PlyFaces::add_face(const Row& row) {
    corners_.assign(row.corners.size(), {});
    for (size_t i = 0; i < corners_.size(); ++i) {
        if (!read_corner(row, i, corners_[i])) return;
    }
    const Place place = report_.place(row.line, 0);
    const std::string number = "number " + std::to_string(row.number);
    if (corners_.size() < 3) {
        report_.note(
            place, "face", number + " has fewer than 3 corners; left out", {"few", "faces"});
    } else if (!std::all_of(corners_.begin(), corners_.end(), [&](const ModelCorner& corner) {
                   return is_finite(corner);
               })) {
        report_.note(place,
                     "face",
                     number + " has a corner that is nowhere (nan or infinite); left out",
                     {"nowhere", "faces"});
    } else {
        add_polygon(row);
    }
}

void PlyFaces::add_polygon(const Row& row) {
    outline_.clear();
    for (const ModelCorner& corner : corners_) {
        outline_.push_back(model_.positions[static_cast<size_t>(corner.position)]);
    }
    const PolygonCut cut = triangulator_.cut(outline_);
    for (const std::array<int32_t, 3>& chosen : cut.triangles) {
        const auto corner = [&](size_t i) { return corners_[static_cast<size_t>(chosen[i])]; };
        add({corner(0), corner(1), corner(2)}, row);
    }
    const auto note = [&](const char* what) {
        report_.note(report_.place(row.line, 0),
                     "face",
                     "number " + std::to_string(row.number) + what,
                     {what, "faces"});
    };
    if (cut.flat > 0) note(" has a part without area; left out");
    if (cut.crosses) note(" crosses itself; its triangles are a guess");
}

void PlyFaces::add_strips(const Row& row) {
    size_t in_strip = 0;
    for (size_t i = 0; i < row.corners.size(); ++i) {
        if (row.corners[i] == -1) {
            in_strip = 0;
            continue;
        }
        corners_.resize(3);
        corners_[0] = corners_[1];
        corners_[1] = corners_[2];
        if (!read_corner(row, i, corners_[2])) return;
        if (++in_strip < 3) continue;
        // Every second triangle of a strip turns the other way.
        std::array<ModelCorner, 3> triangle{corners_[0], corners_[1], corners_[2]};
        if (in_strip % 2 == 0) std::swap(triangle[0], triangle[1]);
        const bool is_flat = triangle[0].position == triangle[1].position ||
                             triangle[1].position == triangle[2].position ||
                             triangle[2].position == triangle[0].position;
        const bool finite =
            is_finite(triangle[0]) && is_finite(triangle[1]) && is_finite(triangle[2]);
        if (!is_flat && finite) add(triangle, row);
    }
}

void PlyFaces::add(const std::array<ModelCorner, 3>& corners, const Row& row) {
    ModelTriangle triangle;
    triangle.corners = corners;
    const auto materials = static_cast<double>(model_.materials.size());
    if (materials > 0) {
        const bool is_there = row.picture >= 0 && row.picture < materials;
        triangle.material = is_there ? static_cast<int32_t>(row.picture) : 0;
    }
    model_.triangles.push_back(triangle);
}

}  // namespace dapple
