// Polygons of any shape are cut into triangles that cover them once and keep their winding.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>

#include "obj_helpers.h"
#include "set/models/triangulate.h"

using namespace dapple;

namespace {

using Outline = std::vector<std::array<double, 2>>;
using Polygon = std::vector<std::array<double, 3>>;

struct NamedOutline {
    std::string name;
    Outline points;  // counter-clockwise
};

Outline make_round(int count, const std::function<double(int)>& radius) {
    Outline outline;
    for (int i = 0; i < count; ++i) {
        const double angle = 2 * std::numbers::pi * i / count;
        const double r = radius(i);
        outline.push_back({r * std::cos(angle), r * std::sin(angle)});
    }
    return outline;
}

// A band that winds inward.
Outline make_spiral(int count) {
    Outline outline;
    for (const int side : {0, 1}) {
        for (int i = 0; i < count; ++i) {
            const int k = side == 0 ? i : count - 1 - i;
            const double angle = 6 * std::numbers::pi * k / count;
            const double radius = 1 + 0.3 * angle + 0.5 * side;
            outline.push_back({radius * std::cos(angle), -radius * std::sin(angle)});
        }
    }
    return outline;
}

Outline make_comb(int teeth) {
    Outline outline{{0, -1}, {2.0 * teeth, -1}};
    for (int i = teeth; i > 0; --i) {
        outline.push_back({2.0 * i, 0});
        outline.push_back({2.0 * i - 1, 5});
    }
    outline.push_back({0, 0});
    return outline;
}

std::vector<NamedOutline> concave_outlines() {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> radius(0.2, 2.0);
    std::vector<NamedOutline> all{
        {"arrow head", {{0, 0}, {4, 2}, {0, 4}, {1, 2}}},
        {"arrow head, dent first", {{1, 2}, {0, 0}, {4, 2}, {0, 4}}},
        {"L", {{0, 0}, {3, 0}, {3, 1}, {1, 1}, {1, 4}, {0, 4}}},
        {"U", {{0, 0}, {4, 0}, {4, 4}, {3, 4}, {3, 1}, {1, 1}, {1, 4}, {0, 4}}},
        {"corners on straight edges",
         {{0, 0}, {1, 0}, {2, 0}, {4, 0}, {4, 2}, {4, 4}, {2, 4}, {2, 2}, {0, 2}, {0, 1}}},
        {"frame with its hole joined by a doubled edge",
         {{0, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}, {1, 1}, {1, 3}, {3, 3}, {3, 1}, {1, 1}}},
        {"two holes",
         {{0, 0},
          {9, 0},
          {9, 4},
          {0, 4},
          {0, 0},
          {1, 1},
          {1, 3},
          {3, 3},
          {3, 1},
          {6, 1},
          {6, 3},
          {8, 3},
          {8, 1},
          {6, 1},
          {3, 1},
          {1, 1}}},
        {"star", make_round(10, [](int i) { return i % 2 == 0 ? 2 : 0.7; })},
        {"fine star", make_round(1000, [](int i) { return i % 2 == 0 ? 2 : 1.9; })},
        {"spiral", make_spiral(300)},
        {"comb", make_comb(200)},
    };
    for (int i = 0; i < 40; ++i) {
        all.push_back({"ragged " + std::to_string(i),
                       make_round(5 + i, [&](int) { return radius(random); })});
    }
    return all;
}

// The place of an outline in space: x and y axes and origin.
struct Plane {
    Vec3 x, y, origin;
};

std::vector<Plane> planes() {
    const double a = 0.6;
    return {{{1, 0, 0}, {0, 1, 0}, {0, 0, 0}},
            {{1, 0, 0}, {0, -1, 0}, {2, 3, 4}},  // seen from behind
            {{0, 0, 2}, {2, 0, 0}, {-1, 0, 0}},
            {{0, 1e-3, 0}, {0, 0, 1e-3}, {0.1, 0.2, 0.3}},  // millimetres
            {{std::cos(a), std::sin(a), 0}, {0, 0, -1}, {5, -2, 1}},
            {{36, 48, 0}, {28.8, -21.6, 48}, {100, 200, -300}}};
}

Polygon place(const Outline& outline, const Plane& plane) {
    Polygon polygon;
    for (const auto& [x, y] : outline) {
        std::array<double, 3> p;
        for (size_t k = 0; k < 3; ++k) {
            p[k] = plane.origin[k] + x * plane.x[k] + y * plane.y[k];
        }
        polygon.push_back(p);
    }
    return polygon;
}

// The shoelace formula in space (Newell): area times normal, for any shape.
Vec3 shoelace(const Polygon& polygon) {
    Vec3 sum{};
    for (size_t i = 1; i + 1 < polygon.size(); ++i) {
        const Vec3 part = area_vector(polygon[0], polygon[i], polygon[i + 1]);
        for (size_t k = 0; k < 3; ++k) sum[k] += part[k];
    }
    return sum;
}

struct Cover {
    double area = 0;    // of all triangles, along the polygon's normal
    double size = 0;    // sum of the areas of all triangles
    bool turns = true;  // whether every triangle turns as the polygon does
};

Cover cover_of(const Polygon& polygon, const PolygonCut& cut) {
    Cover cover;
    const Vec3 whole = shoelace(polygon);
    for (const auto& t : cut.triangles) {
        const auto corner = [&](size_t k) { return polygon[static_cast<size_t>(t[k])]; };
        const Vec3 part = area_vector(corner(0), corner(1), corner(2));
        cover.area += dot(part, whole) / length(whole);
        cover.size += length(part);
        cover.turns = cover.turns && dot(part, whole) > 0;
    }
    return cover;
}

}  // namespace

TEST_CASE("concave polygons are covered exactly once, with their winding, in every plane") {
    Triangulator triangulator;
    for (const NamedOutline& outline : concave_outlines()) {
        for (const Plane& plane : planes()) {
            CAPTURE(outline.name);
            CAPTURE(plane.origin[0]);
            const Polygon polygon = place(outline.points, plane);
            const PolygonCut cut = triangulator.cut(polygon);
            const Cover cover = cover_of(polygon, cut);
            const double area = length(shoelace(polygon));
            CHECK(!cut.crosses);
            CHECK(cut.triangles.size() + static_cast<size_t>(cut.flat) == polygon.size() - 2);
            CHECK(cover.turns);
            // Rounding to float moves points by at most 6e-8 of 300, so corners on a straight
            // edge can leave out flat triangles as thin as that.
            CHECK(cover.area == doctest::Approx(area).epsilon(1e-6));
            CHECK(cover.size == doctest::Approx(area).epsilon(1e-6));
        }
    }
}

TEST_CASE("no triangle is lost if corners are on straight edges") {
    Triangulator triangulator;
    for (const NamedOutline& outline : concave_outlines()) {
        if (outline.name != "corners on straight edges") continue;
        const Polygon polygon = place(outline.points, planes()[0]);
        for (size_t turn = 0; turn < polygon.size(); ++turn) {
            Polygon turned = polygon;
            std::rotate(turned.begin(), turned.begin() + static_cast<int>(turn), turned.end());
            const PolygonCut cut = triangulator.cut(turned);
            CHECK(cut.flat == 0);
            CHECK(cut.triangles.size() == polygon.size() - 2);
        }
    }
}

TEST_CASE("faces that are not quite flat are covered along their mean normal") {
    std::mt19937 random(11);
    std::uniform_real_distribution<float> lift(-0.05F, 0.05F);
    Triangulator triangulator;
    for (const NamedOutline& outline : concave_outlines()) {
        if (outline.name.find("doubled") != std::string::npos || outline.name == "two holes") {
            continue;  // their doubled corners would separate
        }
        CAPTURE(outline.name);
        Polygon polygon = place(outline.points, planes()[0]);
        for (auto& p : polygon) p[2] += lift(random);
        const PolygonCut cut = triangulator.cut(polygon);
        CHECK(cut.triangles.size() == polygon.size() - 2);
        // The parts along the normal add up to the shoelace sum exactly, except for rounding.
        CHECK(cover_of(polygon, cut).area == doctest::Approx(length(shoelace(polygon))));
    }
}

TEST_CASE("a quad is cut so that both halves are inside it") {
    Triangulator triangulator;
    const Polygon dart{{0, 0, 0}, {4, 2, 0}, {0, 4, 0}, {1, 2, 0}};  // dent at the last corner
    const PolygonCut cut = triangulator.cut(dart);
    REQUIRE(cut.triangles.size() == 2);
    for (const auto& t : cut.triangles) {
        CHECK(std::count(t.begin(), t.end(), 1) == 1);
        CHECK(std::count(t.begin(), t.end(), 3) == 1);
    }
}

TEST_CASE("triangles without area are left out and counted") {
    Triangulator triangulator;
    struct Case {
        const char* name;
        Polygon polygon;
        size_t triangles;
        int32_t flat;
    };
    const Case cases[] = {
        {"a point", {{1, 1, 1}, {1, 1, 1}, {1, 1, 1}}, 0, 1},
        {"a line", {{0, 0, 0}, {1, 1, 1}, {3, 3, 3}}, 0, 1},
        {"a line of five", {{0, 0, 0}, {1, 0, 0}, {2, 0, 0}, {3, 0, 0}, {1.5F, 0, 0}}, 0, 3},
        {"a quad with a doubled corner", {{0, 0, 0}, {1, 0, 0}, {1, 0, 0}, {0, 1, 0}}, 1, 1},
        {"a square with a spike",
         {{0, 0, 0}, {2, 0, 0}, {2, 2, 0}, {2, 5, 0}, {2, 2, 0}, {0, 2, 0}},
         2,
         2},
    };
    for (const Case& one : cases) {
        CAPTURE(one.name);
        const PolygonCut cut = triangulator.cut(one.polygon);
        CHECK(cut.triangles.size() == one.triangles);
        CHECK(cut.flat == one.flat);
        CHECK(!cut.crosses);
    }
}

TEST_CASE("polygons that cross themselves keep the area of the shoelace formula") {
    Triangulator triangulator;
    const Polygon bow{{0, 0, 0}, {2, 2, 0}, {2, 0, 0}, {0, 1, 0}};
    CHECK(triangulator.cut(bow).crosses);
    const Polygon even_bow{{0, 0, 0}, {2, 2, 0}, {2, 0, 0}, {0, 2, 0}};  // its normal is 0
    CHECK(triangulator.cut(even_bow).crosses);
    std::mt19937 random(3);
    std::uniform_real_distribution<float> anywhere(-1, 1);
    for (int i = 0; i < 200; ++i) {
        Polygon tangle;
        for (int k = 0; k < 4 + i % 60; ++k) {
            tangle.push_back({anywhere(random), anywhere(random), anywhere(random)});
        }
        const PolygonCut cut = triangulator.cut(tangle);
        CHECK(cut.triangles.size() + static_cast<size_t>(cut.flat) == tangle.size() - 2);
        CHECK(cover_of(tangle, cut).area == doctest::Approx(length(shoelace(tangle))));
    }
}

TEST_CASE("the largest faces are cut quickly, tangled or not" * doctest::timeout(20)) {
    Triangulator triangulator;
    const Polygon spiral = place(make_spiral(kMaxCorners / 2), planes()[4]);
    CHECK(cover_of(spiral, triangulator.cut(spiral)).turns);
    std::mt19937 random(5);
    std::uniform_real_distribution<float> anywhere(-1, 1);
    Polygon tangle;
    for (int k = 0; k < kMaxCorners; ++k) tangle.push_back({anywhere(random), anywhere(random), 0});
    const PolygonCut cut = triangulator.cut(tangle);
    CHECK(cut.triangles.size() + static_cast<size_t>(cut.flat) == tangle.size() - 2);
}
