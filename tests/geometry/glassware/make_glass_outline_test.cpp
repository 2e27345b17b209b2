// The solid against the outline that it is made from: volume, wall, ribs.
#include <doctest/doctest.h>

#include <algorithm>
#include <vector>

#include "geometry/glassware/glass_samples.h"
#include "geometry/glassware/make_glass_forms.h"
#include "geometry/glassware/outline_measure.h"
#include "scene/models/check_mesh.h"

namespace dapple {

namespace {

// V = π ∮ r² dy along the outline (the solid on its left), patterns by the mean of R² around.
double turned_volume(const Outline& outline, const Relief& relief) {
    constexpr int kSteps = 400;
    double volume = 0;
    for (const OutlinePiece& piece : outline) {
        for (int i = 0; i < kSteps; ++i) {
            const double s = (i + 0.5) / kSteps * piece.length;
            const glm::dvec2 p = position_at(piece, s);
            double mean_square = p.x * p.x;
            if (piece.patterned) {
                mean_square = 0;
                // Over one rib, or all around where the pattern does not repeat.
                const double turn = relief.ruled() ? relief.period : 2 * kPi;
                const int places = relief.ruled() ? 64 : 1024;
                for (int k = 0; k < places; ++k) {
                    const double r = p.x - relief.at(turn * k / places, p.y).cut;
                    mean_square += r * r / places;
                }
            }
            const double dy = std::sin(heading_at(piece, s)) * piece.length / kSteps;
            volume += kPi * mean_square * dy;
        }
    }
    return volume;
}

// The outline outside the cavity, without the arcs of the rim.
Outline outer_side(const Vessel& vessel) {
    Outline outer(vessel.glass.begin(),
                  vessel.glass.end() - static_cast<std::ptrdiff_t>(vessel.cavity.size()));
    while (outer.back().curvature != 0) outer.pop_back();
    return outer;
}

// The radii, in order of angle, of the row of vertices on the outside that is nearest to a height.
std::vector<double> radii_round(const Mesh& mesh, double inner_radius, double height) {
    double row = kInfinity;
    for (const Point& p : mesh.positions) {
        if (std::hypot(p.x, p.z) < inner_radius) continue;
        if (std::abs(p.y - height) < std::abs(row - height)) row = p.y;
    }
    std::vector<std::pair<double, double>> found;
    for (const Point& p : mesh.positions) {
        const double r = std::hypot(static_cast<double>(p.x), static_cast<double>(p.z));
        if (p.y == static_cast<float>(row) && r > inner_radius) {
            found.emplace_back(std::atan2(p.z, p.x), r);
        }
    }
    std::sort(found.begin(), found.end());
    std::vector<double> radii;
    for (const auto& [angle, r] : found) radii.push_back(r);
    return radii;
}

int count_maxima(const std::vector<double>& radii) {
    int maxima = 0;
    const size_t n = radii.size();
    for (size_t i = 0; i < n; ++i) {
        if (radii[i] > radii[(i + n - 1) % n] && radii[i] >= radii[(i + 1) % n]) ++maxima;
    }
    return maxima;
}

double spread(const std::vector<double>& radii) {
    const auto [low, high] = std::minmax_element(radii.begin(), radii.end());
    return *high - *low;
}

}  // namespace

TEST_CASE("a vessel's mesh has the volume of its outline turned about the axis") {
    for (const GlassObject& glass : vessels()) {
        CAPTURE(describe(glass));
        const Vessel vessel = make_vessel(glass);
        // Chords round with n >= 96 segments leave out (2π/n)²/6 of the volume, 0.7e-3 at most.
        CHECK(signed_volume(glass_mesh(glass)) ==
              doctest::Approx(turned_volume(vessel.glass, vessel.relief)).epsilon(1e-3));
    }
}

TEST_CASE("a ball's volume is 4/3 π r³ but for its facets") {
    // A sphere cut into n segments round and steps of Δ up lacks (2π/n)²/6 + Δ²/4 of its volume.
    // Balls of 0.1 m and more have n = 224 and Δ = 2π/224; of 2 mm n = 96 and Δ = 0.1.
    const std::pair<float, double> lacks[] = {{0.002F, 0.0033}, {0.1F, 0.00034}, {2.0F, 0.00034}};
    for (const auto& [diameter, most] : lacks) {
        CAPTURE(diameter);
        const GlassObject ball = sample_glass(GlassForm::kBall, diameter, diameter, 0);
        const double exact = kPi / 6 * std::pow(static_cast<double>(diameter), 3);
        const double lack = 1 - signed_volume(glass_mesh(ball)) / exact;
        CHECK(lack > 0);
        CHECK(lack < most);
    }
}

TEST_CASE("the wall is nowhere thinner than given, under the troughs of ribs too") {
    for (const GlassObject& glass : vessels()) {
        CAPTURE(describe(glass));
        const Vessel vessel = make_vessel(glass);
        const Outline outer = outer_side(vessel);
        double thinnest = kInfinity;
        for (const OutlinePiece& piece : vessel.cavity) {
            for (int i = 0; i <= 100; ++i) {
                const OutlineFoot foot =
                    nearest_on(outer, position_at(piece, 0.01 * i * piece.length));
                const double cut = foot.piece->patterned ? vessel.relief.depth : 0;
                thinnest = std::min(thinnest, foot.distance - cut);
            }
        }
        CHECK(thinnest > glass.wall * (1 - 1e-6));  // rounding
        // Ribs on a leaning side are cut level, so a little less than their depth off the wall.
        CHECK(thinnest < glass.wall * 1.01);
    }
}

TEST_CASE("ribs have the given number and depth and fade out towards base and rim") {
    for (const GlassObject& glass : vessels()) {
        if (glass.surface != GlassSurface::kRibbed) continue;
        CAPTURE(describe(glass));
        const Vessel vessel = make_vessel(glass);
        const Relief& ribs = vessel.relief;
        const Mesh mesh = glass_mesh(glass);
        const double outside = glass.form == GlassForm::kTumbler ? 0.8 : 1.0;
        const double inner = 0.5 * glass.diameter * outside - glass.relief_depth - 0.5 * glass.wall;

        const auto middle = radii_round(mesh, inner, 0.5 * (ribs.low + ribs.high));
        CHECK(count_maxima(middle) == glass.ribs);
        CHECK(middle.size() / static_cast<size_t>(glass.ribs) >= 24);
        CHECK(spread(middle) ==
              doctest::Approx(glass.relief_depth).epsilon(1e-4));  // float rounding
        CHECK(spread(radii_round(mesh, inner, ribs.low)) < 1e-7);
        CHECK(spread(radii_round(mesh, inner, ribs.high)) < 1e-7);
        const auto half = radii_round(mesh, inner, ribs.low + 0.5 * ribs.fade);
        CHECK(spread(half) ==
              doctest::Approx(0.5 * glass.relief_depth).epsilon(0.1));  // nearest row
        // Some plain glass is left at both ends, so that rim and heel stay round.
        CHECK(ribs.low > 0.02 * glass.height);
        CHECK(ribs.high < 0.98 * glass.height);
    }
}

TEST_CASE("outlines are smooth, run from axis to axis and come back to where their pieces join") {
    for (const GlassObject& glass : vessels()) {
        CAPTURE(describe(glass));
        const Outline outline = make_vessel(glass).glass;
        CHECK(outline.front().start.x == 0);
        CHECK(std::abs(position_at(outline.back(), outline.back().length).x) < 1e-12);
        for (size_t i = 1; i < outline.size(); ++i) {
            const OutlinePiece& before = outline[i - 1];
            CHECK(glm::length(position_at(before, before.length) - outline[i].start) < 1e-12);
            CHECK(std::abs(heading_at(before, before.length) - outline[i].heading) < 1e-12);
        }
    }
}

TEST_CASE("an outline moved along its normals and back is the outline") {
    const Outline outline = make_vessel(vessels().front()).cavity;
    const Outline back = reversed_outline(
        reversed_outline(offset_outline(offset_outline(outline, -0.0015), 0.0015)));
    for (size_t i = 0; i < outline.size(); ++i) {
        CHECK(glm::length(back[i].start - outline[i].start) < 1e-12);
        CHECK(back[i].length == doctest::Approx(outline[i].length));
        CHECK(std::abs(glm::dot(normal_at(back[i], 0), normal_at(outline[i], 0)) - 1) < 1e-12);
    }
}

}  // namespace dapple
