#include "set/models/triangulate.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace dapple {

namespace {

using Vec3 = std::array<double, 3>;

// A triangle is flat if twice its area over the square of its longest edge is below this: its
// height is then less than the rounding of a mesh, in floats, as large as that edge.
constexpr double kFlat = 1e-7;

// Most times that the whole polygon is searched for ears. Simple polygons need two or three;
// without a limit, the time for tangled ones would be the cube of their corners.
constexpr int kMostRounds = 64;

Vec3 between(const Vec3& from, const Vec3& to) {
    return {to[0] - from[0], to[1] - from[1], to[2] - from[2]};
}

Vec3 cross(const Vec3& a, const Vec3& b) {
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

double dot(const Vec3& a, const Vec3& b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

bool is_flat(const std::array<double, 3>& a,
             const std::array<double, 3>& b,
             const std::array<double, 3>& c) {
    const Vec3 ab = between(a, b);
    const Vec3 ac = between(a, c);
    const Vec3 bc = between(b, c);
    const Vec3 normal = cross(ab, ac);
    const double longest = std::max({dot(ab, ab), dot(ac, ac), dot(bc, bc)});
    return dot(normal, normal) <= kFlat * kFlat * longest * longest;
}

// Twice the signed area of the triangle a b c, positive where it turns left.
template <class Point>
double turn(const Point& a, const Point& b, const Point& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

template <class Point>
double longest_edge_squared(const Point& a, const Point& b, const Point& c) {
    const auto squared = [](const Point& p, const Point& q) {
        return (p.x - q.x) * (p.x - q.x) + (p.y - q.y) * (p.y - q.y);
    };
    return std::max({squared(a, b), squared(b, c), squared(c, a)});
}

}  // namespace

PolygonCut Triangulator::cut(std::span<const std::array<double, 3>> polygon) {
    polygon_ = polygon;
    triangles_.clear();
    result_ = {};
    left_ = static_cast<int32_t>(polygon.size());
    if (left_ == 3) {
        emit(0, 1, 2);
    } else if (left_ > 3) {
        next_.resize(polygon.size());
        std::iota(next_.begin(), next_.end(), 1);
        next_.back() = 0;
        if (!project()) {
            finish_as_fan(0);  // all on one line, or its halves cancel out
            result_.crosses = !triangles_.empty();
        } else if (!cut_as_fan()) {
            clip_ears();
        }
    }
    result_.triangles = triangles_;
    return result_;
}

// Fills in flat_points_, counter-clockwise. Returns false if the polygon spans no plane.
bool Triangulator::project() {
    const size_t count = polygon_.size();
    Vec3 normal{};
    double longest = 0;
    for (size_t i = 1; i + 1 < count; ++i) {
        const Vec3 a = between(polygon_[0], polygon_[i]);
        const Vec3 b = between(polygon_[0], polygon_[i + 1]);
        const Vec3 part = cross(a, b);
        for (size_t k = 0; k < 3; ++k) normal[k] += part[k];
        longest = std::max({longest, dot(a, a), dot(b, b)});
    }
    if (dot(normal, normal) <= kFlat * kFlat * longest * longest) return false;

    size_t axis = 0;
    for (size_t k = 1; k < 3; ++k) {
        if (std::abs(normal[k]) > std::abs(normal[axis])) axis = k;
    }
    size_t x = (axis + 1) % 3;
    size_t y = (axis + 2) % 3;
    if (normal[axis] < 0) std::swap(x, y);
    flat_points_.resize(count);
    for (size_t i = 0; i < count; ++i) flat_points_[i] = {polygon_[i][x], polygon_[i][y]};
    return true;
}

// Cuts convex polygons, and all others whose corners can all be seen from the first one. Returns
// false for the rest.
bool Triangulator::cut_as_fan() {
    const auto count = static_cast<int32_t>(polygon_.size());
    for (int32_t i = 1; i + 1 < count; ++i) {
        const Point2& a = flat_points_[0];
        const Point2& b = flat_points_[i];
        const Point2& c = flat_points_[i + 1];
        if (turn(a, b, c) <= kFlat * longest_edge_squared(a, b, c)) return false;
    }
    for (int32_t i = 1; i + 1 < count; ++i) emit(0, i, i + 1);
    return true;
}

void Triangulator::clip_ears() {
    const size_t count = polygon_.size();
    previous_.resize(count);
    std::iota(previous_.begin(), previous_.end(), -1);
    previous_[0] = static_cast<int32_t>(count) - 1;
    some_corner_ = 0;
    for (int round = 0; left_ > 3; ++round) {
        if (round < kMostRounds) {
            if (clip_all(Ear::kClean)) continue;
            if (drop_flat_corner()) continue;
            if (clip_all(Ear::kTouching)) continue;
        }
        if (!clip_all(Ear::kTurning)) break;
    }
    const Point2& a = flat_points_[previous_[some_corner_]];
    const Point2& b = flat_points_[some_corner_];
    const Point2& c = flat_points_[next_[some_corner_]];
    const bool turns_back = turn(a, b, c) < -kFlat * longest_edge_squared(a, b, c);
    result_.crosses = left_ > 3 || turns_back;
    finish_as_fan(some_corner_);
}

// Goes round the polygon and clips ears until none is left. Returns false if there was none. A
// corner without an ear is tested again only after a neighbour was clipped, and once at the end.
bool Triangulator::clip_all(Ear kind) {
    bool any = false;
    known_no_ear_.assign(polygon_.size(), 0);
    int32_t corner = some_corner_;
    for (int32_t tries = left_; left_ > 3 && tries > 0; --tries) {
        const int32_t next = next_[corner];
        if (known_no_ear_[corner] == 0 && is_ear(corner, kind)) {
            clip(corner);
            any = true;
            tries = left_ + 1;
            corner = next_[next];  // every second corner, for fewer slivers
        } else {
            known_no_ear_[corner] = 1;
            corner = next;
        }
    }
    return any;
}

// Clips one corner that is on a line with its neighbours, at the place of one, or the tip of a
// spike. Returns false if there is none.
bool Triangulator::drop_flat_corner() {
    int32_t corner = some_corner_;
    for (int32_t i = 0; i < left_; ++i, corner = next_[corner]) {
        const Point2& a = flat_points_[previous_[corner]];
        const Point2& b = flat_points_[corner];
        const Point2& c = flat_points_[next_[corner]];
        if (std::abs(turn(a, b, c)) <= kFlat * longest_edge_squared(a, b, c)) {
            clip(corner);
            return true;
        }
    }
    return false;
}

void Triangulator::finish_as_fan(int32_t first) {
    int32_t a = next_[first];
    for (int32_t i = 2; i < left_; ++i) {
        const int32_t b = next_[a];
        emit(first, a, b);
        a = b;
    }
}

bool Triangulator::is_ear(int32_t corner, Ear kind) const {
    const int32_t before = previous_[corner];
    const int32_t after = next_[corner];
    const Point2& a = flat_points_[before];
    const Point2& b = flat_points_[corner];
    const Point2& c = flat_points_[after];
    if (turn(a, b, c) <= kFlat * longest_edge_squared(a, b, c)) return false;
    return kind == Ear::kTurning || !holds_corner(before, corner, after, kind);
}

// Whether another corner is in the triangle. Corners at the places of its own corners do not count:
// the two sides of a doubled edge meet there.
bool Triangulator::holds_corner(int32_t ia, int32_t ib, int32_t ic, Ear kind) const {
    const Point2& a = flat_points_[ia];
    const Point2& b = flat_points_[ib];
    const Point2& c = flat_points_[ic];
    const auto same = [](const Point2& p, const Point2& q) { return p.x == q.x && p.y == q.y; };
    const double edge = kind == Ear::kTouching ? kFlat * longest_edge_squared(a, b, c) : 0;
    const double low_x = std::min({a.x, b.x, c.x});
    const double high_x = std::max({a.x, b.x, c.x});
    for (int32_t i = next_[ic]; i != ia; i = next_[i]) {
        const Point2& p = flat_points_[i];
        if (p.x < low_x || p.x > high_x) continue;
        const bool inside = turn(a, b, p) >= edge && turn(b, c, p) >= edge && turn(c, a, p) >= edge;
        if (inside && !same(p, a) && !same(p, b) && !same(p, c)) return true;
    }
    return false;
}

void Triangulator::clip(int32_t corner) {
    const int32_t before = previous_[corner];
    const int32_t after = next_[corner];
    emit(before, corner, after);
    next_[before] = after;
    previous_[after] = before;
    known_no_ear_[before] = 0;
    known_no_ear_[after] = 0;
    some_corner_ = after;
    --left_;
}

void Triangulator::emit(int32_t a, int32_t b, int32_t c) {
    const bool flat = is_flat(polygon_[a], polygon_[b], polygon_[c]);
    if (flat) {
        ++result_.flat;
    } else {
        triangles_.push_back({a, b, c});
    }
}

}  // namespace dapple
