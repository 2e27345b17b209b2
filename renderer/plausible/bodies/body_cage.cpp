#include "plausible/bodies/body_cage.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <unordered_map>
#include <utility>

#include "base/parallel.h"

namespace dapple {

namespace {

constexpr size_t kCornersPerLook = 3 * 4096;
constexpr float kCellsAcross = 40;
constexpr float kSmallestCell = 4e-3F;    // m
constexpr float kLargestCell = 20e-3F;    // m
constexpr float kPiecesAcross = 20;       // of large triangles
constexpr float kSmallestPiece = 20e-3F;  // m

// Numbers cells in the order in which they are met, and keeps each one's outermost corner.
class CornerCells {
  public:
    CornerCells(const Bounds& bounds, float cell) : bounds_(bounds), cell_(cell) {}

    uint32_t add(const Point& p) {
        const Vec3 from_low = (p - bounds_.low) / cell_;
        uint64_t key = 0;
        for (int a = 0; a < 3; ++a) key = key << 21U | static_cast<uint64_t>(from_low[a]);
        const auto [found, is_new] =
            number_of_.try_emplace(key, static_cast<uint32_t>(corners_.size()));
        if (is_new) corners_.push_back(p);
        Point& kept = corners_[found->second];
        if (glm::length(p - bounds_.centre()) > glm::length(kept - bounds_.centre())) kept = p;
        return found->second;
    }
    const Point& corner(uint32_t number) const { return corners_[number]; }

  private:
    Bounds bounds_;
    float cell_;
    std::unordered_map<uint64_t, uint32_t> number_of_;
    std::vector<Point> corners_;
};

// Halves the longest edge of large triangles until none is longer than `longest`, so that what
// pierces the middle of a large face crosses a chord.
std::vector<Point> in_pieces(std::vector<Point> corners, float longest) {
    std::vector<Point> pieces;
    while (!corners.empty()) {
        std::array<Point, 3> t;
        for (size_t i = 0; i < 3; ++i) {
            t[2 - i] = corners.back();
            corners.pop_back();
        }
        size_t worst = 0;
        const auto edge = [&](size_t i) { return glm::length(t[(i + 1) % 3] - t[i]); };
        for (size_t i = 1; i < 3; ++i) worst = edge(i) > edge(worst) ? i : worst;
        if (edge(worst) <= longest) {
            pieces.insert(pieces.end(), t.begin(), t.end());
            continue;
        }
        const Point& from = t[worst];
        const Point& to = t[(worst + 1) % 3];
        const Point& apex = t[(worst + 2) % 3];
        const Point middle = 0.5F * (from + to);
        for (const Point& p : {from, middle, apex, middle, to, apex}) corners.push_back(p);
    }
    return pieces;
}

}  // namespace

BodyCage make_cage(const std::vector<Point>& triangles) {
    Bounds bounds;
    for (const Point& p : triangles) bounds.add(p);
    const std::vector<Point> corners =
        in_pieces(triangles, std::max(bounds.diagonal() / kPiecesAcross, kSmallestPiece));
    const float cell = std::clamp(bounds.diagonal() / kCellsAcross, kSmallestCell, kLargestCell);
    CornerCells cells(bounds, cell);
    std::vector<std::pair<uint32_t, uint32_t>> pairs;
    for (size_t t = 0; t + 2 < corners.size(); t += 3) {
        if (t % kCornersPerLook == 0) stop_if_asked();
        const std::array numbers = {
            cells.add(corners[t]), cells.add(corners[t + 1]), cells.add(corners[t + 2])};
        for (size_t i = 0; i < 3; ++i) {
            const auto [low, high] = std::minmax(numbers[i], numbers[(i + 1) % 3]);
            if (low != high) pairs.emplace_back(low, high);
        }
    }
    stop_if_asked();
    std::sort(pairs.begin(), pairs.end());
    pairs.erase(std::unique(pairs.begin(), pairs.end()), pairs.end());
    stop_if_asked();
    BodyCage cage;
    cage.reserve(pairs.size());
    for (const auto& [a, b] : pairs) cage.push_back({cells.corner(a), cells.corner(b)});
    return cage;
}

Bounds bounds_of(const BodyCage& cage) {
    Bounds bounds;
    for (const Chord& chord : cage) {
        bounds.add(chord.a);
        bounds.add(chord.b);
    }
    return bounds;
}

}  // namespace dapple
