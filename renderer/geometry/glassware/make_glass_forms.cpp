#include "geometry/glassware/make_glass_forms.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace dapple {

namespace {

constexpr double kQuarter = kPi / 2;

// The proportions in which a jar and a tumbler differ.
struct CupStyle {
    double lean;    // rad, of the side from the vertical
    double base;    // m, thickness
    double heel;    // m, outside radius where base and side meet
    double fillet;  // m, radius where they meet in the cavity
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

// What all patterns have in common. Where there is room, a fade is so long that its slope is
// gentler than 1 in 2 and than the pattern's own.
Relief relief_over(const GlassObject& object, double low, double high) {
    Relief relief;
    relief.surface = object.surface;
    relief.depth = object.relief_depth;
    if (!relief.ruled()) relief.rise = object.relief_pitch;
    relief.seed = object.seed;
    const double plain = 0.04 * (high - low);
    relief.low = low + plain;
    relief.high = high - plain;
    const double fade = std::max(0.08 * (high - low), 3.0 * object.relief_depth);
    const double length = relief.high - relief.low;
    relief.fade = std::min(relief.ruled() ? fade : std::max(fade, relief.rise), 0.4 * length);
    return relief;
}

// The pattern of the straight side between two heights, with a plain band at each end.
Relief relief_round(const GlassObject& object, double low, double high) {
    if (object.surface == GlassSurface::kPlain) return {};
    Relief relief = relief_over(object, low, high);
    const double round = kPi * object.diameter / object.relief_pitch;
    relief.count = object.surface == GlassSurface::kRibbed ? object.ribs
                                                           : static_cast<int>(std::lround(round));
    relief.period = 2 * kPi / relief.count;
    relief.twist = object.rib_twist / (relief.high - relief.low);
    return relief;
}

void draw_side(OutlinePen& pen, const Relief& relief, double top) {
    if (relief.any()) pen.line_to_height(relief.low).line_to_height(relief.high, true);
    pen.line_to_height(top);
}

double side_thickness(const GlassObject& object) {
    return static_cast<double>(object.wall) + object.relief_depth;
}

// The outline of a vessel's glass; its pieces from `cavity` on are the cavity.
void put_outline(const Outline& outline, size_t cavity, Vessel& vessel) {
    vessel.glass = outline;
    vessel.cavity.assign(outline.begin() + static_cast<std::ptrdiff_t>(cavity), outline.end());
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
    cup.relief = relief_round(object, style.heel * (1 - sin_lean), rim_start);

    OutlinePen pen({0, 0}, 0);
    pen.line_to_radius(heel_r).bend(style.heel, kQuarter - style.lean);
    draw_side(pen, cup.relief, rim_start);
    pen.bend(0.5 * t, kPi);
    const size_t outside_pieces = pen.size();
    pen.line_to_height(style.base + style.fillet * (1 - sin_lean));
    pen.bend(style.fillet, style.lean - kQuarter).line_to_radius(0);

    put_outline(pen.outline(), outside_pieces, cup);
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

// The proportions in which a bottle and a demijohn differ, as shares of the body's radius, diameter
// or height.
struct BottleStyle {
    double neck;       // radius of the neck over that of the body
    double lip;        // how far the collar stands out from the neck, over the neck's radius
    double heel;       // over the diameter
    double punt;       // over the diameter
    double shoulder;   // least rise over the height
    double neck_long;  // over the height
};

constexpr BottleStyle kBottle{0.35, 0.12, 0.1, 0.1, 0.22, 0.14};
constexpr BottleStyle kDemijohn{0.2, 0.2, 0.3, 0.05, 0.35, 0.07};

// A bottle: punt, heel, straight body, shoulder of two arcs, neck, lip as a collar, rounded rim.
Vessel make_bottle(const GlassObject& object, const BottleStyle& style) {
    const double t = side_thickness(object);
    const double height = object.height;
    const double diameter = object.diameter;
    const double radius = 0.5 * diameter;
    const double neck = style.neck * radius;
    const double lip = style.lip * neck;
    const double heel = style.heel * diameter;
    const double fillet = std::max(heel - object.wall, 0.3 * heel);
    const double punt = style.punt * diameter;
    const double base = 1.5 * object.wall;

    const double rim_radius = 0.5 * (t + lip);
    const double rise = std::max(style.shoulder * height, 1.09 * (radius - neck));
    const SBend shoulder = s_bend(radius - neck, rise, 0.6);
    const SBend outer_punt = s_bend(punt, radius - heel, 0.85);
    const SBend inner_punt = s_bend(punt, radius - t - fillet, 0.85);
    const double lip_turn = kPi / 3;  // two arcs of radius `lip` shift the line by `lip`

    const double rim_start = height - rim_radius;
    const double neck_top = rim_start - 1.5 * lip - 2 * lip * std::sin(lip_turn);
    const double neck_base = neck_top - style.neck_long * height;
    const double body_top = neck_base - rise;

    Vessel bottle;
    bottle.wall = object.wall;
    bottle.inner_bottom = base;
    bottle.inner_top = rim_start;
    bottle.relief = relief_round(object, heel, body_top);

    OutlinePen pen({0, punt}, 0);
    pen.bend(outer_punt.first, -outer_punt.angle).bend(outer_punt.second, outer_punt.angle);
    pen.bend(heel, kQuarter);
    draw_side(pen, bottle.relief, body_top);
    pen.bend(shoulder.first, shoulder.angle).bend(shoulder.second, -shoulder.angle);
    pen.line_to_height(neck_top).bend(lip, -lip_turn).bend(lip, lip_turn);
    pen.line_to_height(rim_start).bend(rim_radius, kPi);
    const size_t outside_pieces = pen.size();
    pen.line_to_height(neck_base);
    pen.bend(shoulder.second + t, shoulder.angle).bend(shoulder.first - t, -shoulder.angle);
    pen.line_to_height(base + fillet).bend(fillet, -kQuarter);
    pen.bend(inner_punt.second, -inner_punt.angle).bend(inner_punt.first, inner_punt.angle);

    put_outline(pen.outline(), outside_pieces, bottle);
    return bottle;
}

// A carafe: flat base, round heel, straight band, long shoulder to a slender neck, and a flare from
// there to a rounded rim. The inside follows the outside at the side's thickness.
Vessel make_carafe(const GlassObject& object) {
    const double t = side_thickness(object);
    const double height = object.height;
    const double radius = 0.5 * object.diameter;
    const double neck = 0.36 * radius;
    const double heel = 0.5 * radius;
    const double fillet = std::max<double>(heel - t, 0.3 * heel);
    const double base = 2.0 * object.wall;
    const double lean = radians_from_degrees(18);
    const double flare = 0.6 * radius;
    const double rise = std::max(0.3 * height, 1.09 * (radius - neck));
    const SBend shoulder = s_bend(radius - neck, rise, 0.5);

    // The rim's circle touches the leaning line from inside; its top is the height.
    const double rim_start = height - 0.5 * t * (1 + std::sin(lean));
    const double rim_end = height - 0.5 * t * (1 - std::sin(lean));
    const double neck_top = height - 0.22 * height - flare * std::sin(lean);
    const double neck_base = neck_top - 0.06 * height;
    const double body_top = neck_base - rise;

    Vessel carafe;
    carafe.wall = object.wall;
    carafe.inner_bottom = base;
    carafe.inner_top = rim_end;
    carafe.relief = relief_round(object, heel, body_top);

    OutlinePen pen({0, 0}, 0);
    pen.line_to_radius(radius - heel).bend(heel, kQuarter);
    draw_side(pen, carafe.relief, body_top);
    pen.bend(shoulder.first, shoulder.angle).bend(shoulder.second, -shoulder.angle);
    pen.line_to_height(neck_top).bend(flare, -lean).line_to_height(rim_start).bend(0.5 * t, kPi);
    const size_t outside_pieces = pen.size();
    pen.line_to_height(neck_top + (flare + t) * std::sin(lean)).bend(flare + t, lean);
    pen.line_to_height(neck_base);
    pen.bend(shoulder.second + t, shoulder.angle).bend(shoulder.first - t, -shoulder.angle);
    pen.line_to_height(base + fillet).bend(fillet, -kQuarter).line_to_radius(0);

    put_outline(pen.outline(), outside_pieces, carafe);
    return carafe;
}

}  // namespace

Vessel make_vessel(const GlassObject& object) {
    switch (object.form) {
        case GlassForm::kJar:
            return make_cup(object, jar_style(object));
        case GlassForm::kTumbler:
            return make_cup(object, tumbler_style(object));
        case GlassForm::kBottle:
            return make_bottle(object, kBottle);
        case GlassForm::kDemijohn:
            return make_bottle(object, kDemijohn);
        case GlassForm::kCarafe:
            return make_carafe(object);
        default:
            assert(false && "not a vessel");
            return {};
    }
}

Solid make_rod(const GlassObject& object) {
    const double edge = std::min(0.04 * object.diameter, 0.2 * object.height);
    Solid rod;
    rod.relief = relief_round(object, edge, object.height - edge);
    OutlinePen pen({0, 0}, 0);
    pen.line_to_radius(0.5 * object.diameter - edge).bend(edge, kQuarter);
    draw_side(pen, rod.relief, object.height - edge);
    pen.bend(edge, kQuarter).line_to_radius(0);
    rod.glass = pen.outline();
    return rod;
}

Relief make_pane_relief(const GlassObject& object) {
    if (object.surface == GlassSurface::kPlain) return {};
    const double edge = std::min(0.04 * object.width, 0.04 * object.height);
    Relief relief = relief_over(object, 0, object.height);
    relief.low = edge;
    relief.high = object.height - edge;
    relief.half = 0.5 * object.width - edge;
    relief.period = object.relief_pitch;
    relief.fade = std::min({relief.fade, 0.4 * object.height, 0.4 * object.width});
    return relief;
}

Outline make_ball_outline(double diameter) {
    return OutlinePen({0, 0}, 0).bend(0.5 * diameter, kPi).outline();
}

}  // namespace dapple
