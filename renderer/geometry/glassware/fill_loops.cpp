#include "geometry/glassware/fill_loops.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>

namespace dapple {

namespace {

using Points = std::vector<glm::dvec2>;

// Twice the area of the triangle; positive when it runs anticlockwise.
double area2(const glm::dvec2& a, const glm::dvec2& b, const glm::dvec2& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

double area2(const Points& points, const Loop& loop) {
    double sum = 0;
    for (size_t i = 1; i + 1 < loop.size(); ++i) {
        sum += area2(points[loop[0]], points[loop[i]], points[loop[i + 1]]);
    }
    return sum;
}

// Even-odd rule along the ray towards +x.
bool is_inside(const Points& points, const Loop& loop, const glm::dvec2& p) {
    bool inside = false;
    for (size_t i = 0; i < loop.size(); ++i) {
        const glm::dvec2& a = points[loop[i]];
        const glm::dvec2& b = points[loop[(i + 1) % loop.size()]];
        if ((a.y > p.y) == (b.y > p.y)) continue;
        if (p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) inside = !inside;
    }
    return inside;
}

bool crosses(const Points& points, const Loop& loop, const glm::dvec2& from, const glm::dvec2& to) {
    for (size_t i = 0; i < loop.size(); ++i) {
        const glm::dvec2& a = points[loop[i]];
        const glm::dvec2& b = points[loop[(i + 1) % loop.size()]];
        if (area2(from, to, a) * area2(from, to, b) < 0 &&
            area2(a, b, from) * area2(a, b, to) < 0) {
            return true;
        }
    }
    return false;
}

// The outline with the hole as a part of it: there and back along the shortest free bridge.
Loop joined_with_hole(const Points& points, const Loop& outline, const Loop& hole) {
    double shortest = kInfinity;
    size_t from = 0;
    size_t to = 0;
    for (size_t i = 0; i < outline.size(); ++i) {
        for (size_t j = 0; j < hole.size(); ++j) {
            const glm::dvec2& a = points[outline[i]];
            const glm::dvec2& b = points[hole[j]];
            const double length = glm::length(b - a);
            if (length >= shortest) continue;
            if (crosses(points, outline, a, b) || crosses(points, hole, a, b)) continue;
            shortest = length;
            from = i;
            to = j;
        }
    }
    Loop joined(outline.begin(), outline.begin() + static_cast<std::ptrdiff_t>(from) + 1);
    for (size_t j = 0; j <= hole.size(); ++j) joined.push_back(hole[(to + j) % hole.size()]);
    joined.insert(joined.end(), outline.begin() + static_cast<std::ptrdiff_t>(from), outline.end());
    return joined;
}

// Whether the corner can be cut off: it is convex and no other point lies in its triangle.
bool is_ear(const Points& points, const Loop& loop, size_t corner) {
    const size_t n = loop.size();
    const glm::dvec2& a = points[loop[(corner + n - 1) % n]];
    const glm::dvec2& b = points[loop[corner]];
    const glm::dvec2& c = points[loop[(corner + 1) % n]];
    if (area2(a, b, c) <= 0) return false;
    return std::none_of(loop.begin(), loop.end(), [&](uint32_t i) {
        const glm::dvec2& p = points[i];
        return area2(a, b, p) > 0 && area2(b, c, p) > 0 && area2(c, a, p) > 0;
    });
}

// Corners that rounding has made flat are not ears. When only such corners are left, returns any.
size_t next_ear(const Points& points, const Loop& loop, size_t start) {
    for (size_t k = 0; k < loop.size(); ++k) {
        const size_t corner = (start + k) % loop.size();
        if (is_ear(points, loop, corner)) return corner;
    }
    return start % loop.size();
}

void clip_ears(const Points& points, Loop loop, std::vector<glm::uvec3>& triangles) {
    size_t start = 0;
    while (loop.size() >= 3) {
        const size_t n = loop.size();
        const size_t ear = next_ear(points, loop, start);
        triangles.emplace_back(loop[(ear + n - 1) % n], loop[ear], loop[(ear + 1) % n]);
        loop.erase(loop.begin() + static_cast<std::ptrdiff_t>(ear));
        start = ear + 1;  // skips the neighbour, so that triangles do not become thin
    }
}

}  // namespace

std::vector<Loop> chain_loops(const std::vector<std::pair<uint32_t, uint32_t>>& edges) {
    std::multimap<uint32_t, uint32_t> next(edges.begin(), edges.end());
    std::vector<Loop> loops;
    while (!next.empty()) {
        Loop loop;
        for (auto edge = next.begin(); edge != next.end(); edge = next.find(loop.back())) {
            if (loop.empty()) loop.push_back(edge->first);
            loop.push_back(edge->second);
            next.erase(edge);
        }
        assert(loop.front() == loop.back() && "edges of a closed mesh's section form loops");
        loop.pop_back();
        if (loop.size() >= 3) loops.push_back(std::move(loop));
    }
    return loops;
}

std::vector<glm::uvec3> fill_loops(const std::vector<glm::dvec2>& points,
                                   const std::vector<Loop>& loops) {
    std::vector<Loop> outlines;
    for (const Loop& loop : loops) {
        if (area2(points, loop) > 0) outlines.push_back(loop);
    }
    for (const Loop& hole : loops) {
        if (area2(points, hole) > 0) continue;
        for (Loop& outline : outlines) {
            if (!is_inside(points, outline, points[hole[0]])) continue;
            outline = joined_with_hole(points, outline, hole);
            break;
        }
    }
    std::vector<glm::uvec3> triangles;
    for (const Loop& outline : outlines) clip_ears(points, outline, triangles);
    return triangles;
}

}  // namespace dapple
