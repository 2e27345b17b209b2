#include "set/obj/obj_faces.h"

#include <charconv>
#include <string>

#include "set/text_file.h"

namespace dapple {

namespace {

constexpr const char* kNoCorner = " is not a corner; must be like 7, 7/2, 7//3 or 7/2/3";

// What is wrong with an index that refers to nothing.
std::string index_trouble(
    const char* what, std::string_view index, int64_t given, int64_t total, bool is_zero) {
    std::string trouble = "uses " + std::string(what) + " " + std::string(index.substr(0, 24));
    if (is_zero) return trouble + "; the first is 1";
    if (index.front() != '-') return trouble + " of " + std::to_string(total);
    return trouble + ", but only " + std::to_string(given) + " are above it";
}

}  // namespace

void ObjFaces::read(ObjScanner& scanner, std::string_view keyword, const State& state) {
    const Place face = report_.place_of(scanner, keyword);
    missing_uv_.clear();
    missing_normal_.clear();
    if (!read_corners(scanner, state)) return;
    note_missing(face);
    if (corners_.size() >= 3) {
        add_triangles(face, state);
    } else {
        const std::string count = std::to_string(corners_.size());
        report_.note(face,
                     "f",
                     "has " + count + (corners_.size() == 1 ? " corner" : " corners") +
                         "; a face has at least 3; left out",
                     {"corners", "faces"});
    }
}

void ObjFaces::note_missing(const Place& face) const {
    if (!missing_uv_.empty()) {
        report_.note(face, "f", missing_uv_ + "; read as if it named none", {"uv", "faces"});
    }
    if (!missing_normal_.empty()) {
        report_.note(face, "f", missing_normal_ + "; it is flat there", {"normal", "faces"});
    }
}

bool ObjFaces::read_corners(ObjScanner& scanner, const State& state) {
    corners_.clear();
    for (std::string_view word = scanner.next_word(); !word.empty(); word = scanner.next_word()) {
        if (corners_.size() == kMaxCorners) {
            report_.problem(report_.place_of(scanner, word),
                            "f",
                            "has more than " + std::to_string(kMaxCorners) +
                                " corners, the most that a face may have");
            return false;
        }
        ModelCorner corner;
        if (!read_corner(scanner, word, state, corner)) return false;
        corners_.push_back(corner);
    }
    return true;
}

// A corner is position, position/uv, position//normal or position/uv/normal.
bool ObjFaces::read_corner(const ObjScanner& scanner,
                           std::string_view word,
                           const State& state,
                           ModelCorner& corner) {
    const char* at = word.data();
    const char* const end = at + word.size();
    const auto has_field = [&] {  // after a slash; some exporters leave the field empty
        if (at == end || *at != '/') return false;
        ++at;
        return at != end && *at != '/';
    };
    const auto read = [&](const Indexed& indexed, int32_t& index) {
        return read_index(scanner, word, at, indexed, index);
    };
    const auto total = [](const auto& list) { return static_cast<int64_t>(list.size()); };
    const Indexed positions{"vertex", state.given_positions, total(model_.positions)};
    const Indexed uvs{"texture coordinate", state.given_uvs, total(model_.uvs), &missing_uv_};
    const Indexed normals{"normal", state.given_normals, total(model_.normals), &missing_normal_};
    if (!read(positions, corner.position)) return false;
    if (has_field() && !read(uvs, corner.uv)) return false;
    if (has_field() && !read(normals, corner.normal)) return false;
    if (at != end) {
        report_.problem(
            report_.place_of(scanner, word), "f", in_quotes(word) + kNoCorner, {kNoCorner});
        return false;
    }
    // A normal without a length is the same as none.
    const bool has_normal = corner.normal >= 0;
    if (has_normal &&
        model_.normals[static_cast<size_t>(corner.normal)] == std::array<float, 3>{}) {
        corner.normal = -1;
    }
    return true;
}

// Reads the index at `at` and moves `at` to its end.
bool ObjFaces::read_index(const ObjScanner& scanner,
                          std::string_view word,
                          const char*& at,
                          const Indexed& indexed,
                          int32_t& index) {
    int64_t number = 0;
    const auto [stop, error] = std::from_chars(at, word.data() + word.size(), number);
    if (error == std::errc::invalid_argument) {
        report_.problem(
            report_.place_of(scanner, word), "f", in_quotes(word) + kNoCorner, {kNoCorner});
        return false;
    }
    const bool is_readable = error == std::errc();
    const int64_t place = number < 0 ? indexed.given + number : number - 1;
    if (is_readable && place >= 0 && place < indexed.total) {
        index = static_cast<int32_t>(place);
        at = stop;
        return true;
    }
    const std::string_view digits(at, static_cast<size_t>(stop - at));
    std::string trouble = index_trouble(
        indexed.what, digits, indexed.given, indexed.total, is_readable && number == 0);
    if (indexed.missing == nullptr) {
        report_.problem(
            report_.place_of(scanner, digits), "f", std::move(trouble), {"vertex", "lines"});
        return false;
    }
    *indexed.missing = std::move(trouble);
    at = stop;
    return true;
}

void ObjFaces::add_triangles(const Place& face, const State& state) {
    outline_.clear();
    for (const ModelCorner& corner : corners_) {
        outline_.push_back(model_.positions[static_cast<size_t>(corner.position)]);
    }
    const PolygonCut cut = triangulator_.cut(outline_);
    for (const std::array<int32_t, 3>& chosen : cut.triangles) {
        ModelTriangle triangle;
        for (size_t i = 0; i < 3; ++i) {
            triangle.corners[i] = corners_[static_cast<size_t>(chosen[i])];
        }
        triangle.material = state.material;
        triangle.smoothing_group = state.smoothing_group;
        model_.triangles.push_back(triangle);
    }
    if (cut.flat > 0) report_.note(face, "f", "has a part without area; left out");
    if (cut.crosses) report_.note(face, "f", "crosses itself; its triangles are a guess");
}

}  // namespace dapple
