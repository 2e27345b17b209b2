// Cuts a polygon in space into triangles that keep its winding, by clipping ears (Meisters 1975).
//
// The polygon is projected along the coordinate axis nearest to its Newell normal, so that its
// coordinates are used without rounding. Each triangle turns the same way as the polygon;
// such triangles cover a simple polygon exactly once, because winding numbers add up.
// A hole may be joined to the outline by a doubled edge. A polygon that crosses itself has no right
// answer: its rest becomes a fan, and `crosses` is set.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace dapple {

// The most corners that a face may have; the time for a face is at worst the square of them.
inline constexpr int kMaxCorners = 10000;

struct PolygonCut {
    std::span<const std::array<int32_t, 3>> triangles;  // corner numbers; valid until the next cut
    int32_t flat = 0;      // triangles left out because they have no area
    bool crosses = false;  // the polygon crosses itself
};

// Keeps its working memory, so that each face of a model needs no allocation.
class Triangulator {
  public:
    PolygonCut cut(std::span<const std::array<double, 3>> polygon);

  private:
    struct Point2 {
        double x, y;
    };
    enum class Ear {
        kClean,     // no other corner inside the triangle or on its edges
        kTouching,  // no other corner inside the triangle, some on its edges
        kTurning    // turns the right way; any corners inside
    };

    bool project();
    bool cut_as_fan();
    void clip_ears();
    bool clip_all(Ear kind);
    bool drop_flat_corner();
    void finish_as_fan(int32_t first);
    bool is_ear(int32_t corner, Ear kind) const;
    bool holds_corner(int32_t a, int32_t b, int32_t c, Ear kind) const;
    void clip(int32_t corner);
    void emit(int32_t a, int32_t b, int32_t c);

    std::span<const std::array<double, 3>> polygon_;
    std::vector<Point2> flat_points_;
    std::vector<int32_t> next_;
    std::vector<int32_t> previous_;
    std::vector<char> known_no_ear_;
    std::vector<std::array<int32_t, 3>> triangles_;
    int32_t some_corner_ = 0;  // one of the corners that are left
    int32_t left_ = 0;         // number of corners
    PolygonCut result_;
};

}  // namespace dapple
