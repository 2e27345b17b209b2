#include "geometry/make_glass_forms.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace dapple {

namespace {

constexpr double kQuarter = kPi / 2;

// What sets a jar and a tumbler apart.
struct CupStyle {
    double lean;    // rad, of the side from the vertical
    double base;    // m, thickness
    double heel;    // m, outside radius where base and side meet
    double fillet;  // m, the same in the cavity
};

CupStyle jar_style(const GlassObject& object) {
    const double heel = std::min(0.08 * object.diameter, 0.2 * object.height);
    return {0, 1.5 * object.wall, heel, std::max(heel - object.wall, 0.3 * heel)};
}

CupStyle tumbler_style(const GlassObject& object) {
    const double foot = 0.86;  // of the rim's diameter
    return {std::atan((1 - foot) * 0.5 * object.diameter / object.height),
            3.0 * object.wall,
            std::min(0.05 * object.diameter, 0.2 * object.height),
            std::min(0.10 * object.diameter, 0.2 * object.height)};
}

// Ribs on the straight side between two heights, with a plain band at each end. The fades are long
// enough to stay gentler than 1 in 2 where there is room.
Ribs ribs_between(const GlassObject& object, double low, double high) {
    if (object.ribs == 0) return {};
    const double plain = 0.04 * (high - low);
    const double length = high - low - 2 * plain;
    const double fade = std::max(0.08 * (high - low), 3.0 * object.rib_depth);
    return {object.ribs, object.rib_depth, low + plain, high - plain, std::min(fade, 0.4 * length)};
}

void draw_side(OutlinePen& pen, const Ribs& ribs, double top) {
    if (ribs.count > 0) pen.line_to_height(ribs.low).line_to_height(ribs.high, true);
    pen.line_to_height(top);
}

double side_thickness(const GlassObject& object) {
    return static_cast<double>(object.wall) + (object.ribs > 0 ? object.rib_depth : 0.0F);
}

// A cup: flat base, heel, straight side that may lean outwards, rim rounded to a half circle.
//
// The outside line touches the rim's circle, centred at (R - t/2, H - t/2), and the heel's, centred
// at height `heel`; with n = (cos, -sin) of the lean, a circle of radius ρ touches the line n·p = c
// from inside where n·centre = c - ρ.
Vessel make_cup(const GlassObject& object, const CupStyle& style) {
    const double t = side_thickness(object);
    const double cos_lean = std::cos(style.lean);
    const double sin_lean = std::sin(style.lean);
    const glm::dvec2 n(cos_lean, -sin_lean);
    const glm::dvec2 rim(0.5 * object.diameter - 0.5 * t, object.height - 0.5 * t);
    const double outside = glm::dot(n, rim) + 0.5 * t;
    const double heel_r = (outside - style.heel + style.heel * sin_lean) / cos_lean;
    const double rim_start = rim.y - 0.5 * t * sin_lean;
    const double rim_end = rim.y + 0.5 * t * sin_lean;

    Vessel cup;
    cup.wall = object.wall;
    cup.inner_bottom = style.base;
    cup.inner_top = rim_end;
    cup.ribs = ribs_between(object, style.heel * (1 - sin_lean), rim_start);

    OutlinePen pen({0, 0}, 0);
    pen.line_to_radius(heel_r).bend(style.heel, kQuarter - style.lean);
    draw_side(pen, cup.ribs, rim_start);
    pen.bend(0.5 * t, kPi);
    const size_t outside_pieces = pen.size();
    pen.line_to_height(style.base + style.fillet * (1 - sin_lean));
    pen.bend(style.fillet, style.lean - kQuarter).line_to_radius(0);

    cup.glass = pen.outline();
    cup.cavity.assign(cup.glass.begin() + static_cast<std::ptrdiff_t>(outside_pieces),
                      cup.glass.end());
    return cup;
}

// An S of two arcs that turn by the same angle, across `run` and along `rise`:
// run = (r1 + r2)(1 - cos β), rise = (r1 + r2) sin β, so β = 2 arctan(run/rise).
struct SBend {
    double angle;
    double first;   // m, radius of the arc with the larger share
    double second;  // m
};

SBend s_bend(double run, double rise, double first_share) {
    const double angle = 2 * std::atan(run / rise);
    const double both = rise / std::sin(angle);
    return {angle, first_share * both, (1 - first_share) * both};
}

// A bottle: punt, heel, straight body, shoulder of two arcs, neck, lip as a collar, rounded rim.
Vessel make_bottle(const GlassObject& object) {
    const double t = side_thickness(object);
    const double height = object.height;
    const double diameter = object.diameter;
    const double radius = 0.5 * diameter;
    const double neck = 0.35 * radius;
    const double lip = 0.12 * neck;  // how far the collar stands out from the neck
    const double heel = 0.1 * diameter;
    const double fillet = std::max(heel - object.wall, 0.3 * heel);
    const double punt = 0.1 * diameter;
    const double base = 1.5 * object.wall;

    const double rim_radius = 0.5 * (t + lip);
    const double rise = std::max(0.22 * height, 1.09 * (radius - neck));
    const SBend shoulder = s_bend(radius - neck, rise, 0.6);
    const SBend outer_punt = s_bend(punt, radius - heel, 0.85);
    const SBend inner_punt = s_bend(punt, radius - t - fillet, 0.85);
    const double lip_turn = kPi / 3;  // two arcs of radius `lip` shift the line by `lip`

    const double rim_start = height - rim_radius;
    const double neck_top = rim_start - 1.5 * lip - 2 * lip * std::sin(lip_turn);
    const double neck_base = neck_top - 0.14 * height;
    const double body_top = neck_base - rise;

    Vessel bottle;
    bottle.wall = object.wall;
    bottle.inner_bottom = base;
    bottle.inner_top = rim_start;
    bottle.ribs = ribs_between(object, heel, body_top);

    OutlinePen pen({0, punt}, 0);
    pen.bend(outer_punt.first, -outer_punt.angle).bend(outer_punt.second, outer_punt.angle);
    pen.bend(heel, kQuarter);
    draw_side(pen, bottle.ribs, body_top);
    pen.bend(shoulder.first, shoulder.angle).bend(shoulder.second, -shoulder.angle);
    pen.line_to_height(neck_top).bend(lip, -lip_turn).bend(lip, lip_turn);
    pen.line_to_height(rim_start).bend(rim_radius, kPi);
    const size_t outside_pieces = pen.size();
    pen.line_to_height(neck_base);
    pen.bend(shoulder.second + t, shoulder.angle).bend(shoulder.first - t, -shoulder.angle);
    pen.line_to_height(base + fillet).bend(fillet, -kQuarter);
    pen.bend(inner_punt.second, -inner_punt.angle).bend(inner_punt.first, inner_punt.angle);

    bottle.glass = pen.outline();
    bottle.cavity.assign(bottle.glass.begin() + static_cast<std::ptrdiff_t>(outside_pieces),
                         bottle.glass.end());
    return bottle;
}

}  // namespace

Vessel make_vessel(const GlassObject& object) {
    switch (object.form) {
        case GlassForm::kJar:
            return make_cup(object, jar_style(object));
        case GlassForm::kTumbler:
            return make_cup(object, tumbler_style(object));
        case GlassForm::kBottle:
            return make_bottle(object);
        default:
            assert(false && "only jars, tumblers and bottles are vessels");
            return {};
    }
}

Outline make_ball_outline(double diameter) {
    return OutlinePen({0, 0}, 0).bend(0.5 * diameter, kPi).outline();
}

}  // namespace dapple
