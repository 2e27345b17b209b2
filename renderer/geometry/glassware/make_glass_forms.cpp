#include "geometry/glassware/make_glass_forms.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace dapple {

namespace {

constexpr double kQuarterTurn = kPi / 2;

// Least rise of a shoulder over its run: its two arcs turn by at most 2 arctan(1/1.09), about 85°.
constexpr double kLeastShoulderRise = 1.09;

// The proportions in which a jar and a tumbler differ.
struct CupStyle {
    double lean;    // rad, angle by which the side leans outwards from the vertical
    double base;    // m, thickness of the base
    double heel;    // m, radius of the arc between base and side, outside
    double fillet;  // m, radius of the arc between base and side, in the cavity
};

CupStyle jar_style(const GlassObject& object) {
    const double heel = std::min(0.08 * object.diameter, 0.2 * object.height);
    return {.lean = 0,
            .base = 1.5 * object.wall,
            .heel = heel,
            .fillet = std::max(heel - object.wall, 0.3 * heel)};
}

CupStyle tumbler_style(const GlassObject& object) {
    const double foot = 0.86;  // the foot's diameter over the rim's
    return {.lean = std::atan((1 - foot) * 0.5 * object.diameter / object.height),
            .base = 3.0 * object.wall,
            .heel = std::min(0.05 * object.diameter, 0.2 * object.height),
            .fillet = std::min(0.10 * object.diameter, 0.2 * object.height)};
}

// What the patterns of a side and of a pane have in common. A plain band stays at each end.
// `fade` is the length over which the pattern grows from nothing to its full depth. It is at least
// three depths, so that its slope is at most about 1 in 2, and at least one period in height of
// dents and waves. But the two fades together take at most 0.8 of the pattern's length.
Relief common_relief(const GlassObject& object, double low, double high) {
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
    relief.fade = std::min(relief.ruled() ? fade : std::max(fade, 1.5 * relief.rise), 0.4 * length);
    return relief;
}

// The pattern around the straight side of a solid between two heights.
Relief side_relief(const GlassObject& object, double low, double high) {
    if (object.surface == GlassSurface::kPlain) return {};
    Relief relief = common_relief(object, low, high);
    const double repeats_around = kPi * object.diameter / object.relief_pitch;
    relief.count = object.surface == GlassSurface::kRibbed
                       ? object.ribs
                       : static_cast<int>(std::lround(repeats_around));
    relief.period = 2 * kPi / relief.count;
    relief.twist = object.rib_twist / (relief.high - relief.low);
    return relief;
}

void draw_side(OutlinePen& pen, const Relief& relief, double top) {
    const bool patterned = true;
    if (relief.any()) pen.line_to_height(relief.low).line_to_height(relief.high, patterned);
    pen.line_to_height(top);
}

// m, from the cavity to the crests of the pattern.
double side_thickness(const GlassObject& object) {
    return static_cast<double>(object.wall) + object.relief_depth;
}

// Stores the outline of the glass. Its pieces from `first_cavity_piece` on also outline the cavity.
void put_outline(const Outline& outline, size_t first_cavity_piece, Vessel& vessel) {
    vessel.glass = outline;
    const auto first = outline.begin() + static_cast<std::ptrdiff_t>(first_cavity_piece);
    vessel.cavity.assign(first, outline.end());
}

// A cup: flat base, heel, straight side that may lean outwards, rim rounded to a half circle.
//
// R is half the diameter, H the height, t the side's thickness. The outside of the side is a line:
// it holds the points p = (radius, height) with n·p = c, where n = (cos lean, -sin lean) points out
// of the glass. A circle of radius ρ touches that line from inside if n·centre = c - ρ. Two circles
// touch it: the rim's, of radius t/2 and centre (R - t/2, H - t/2), which gives c; and the heel's,
// with its centre at height `heel`, for which c gives the radius of the centre.
Vessel make_cup(const GlassObject& object, const CupStyle& style) {
    const double t = side_thickness(object);
    const double cos_lean = std::cos(style.lean);
    const double sin_lean = std::sin(style.lean);
    const glm::dvec2 n(cos_lean, -sin_lean);
    const glm::dvec2 rim_centre(0.5 * object.diameter - 0.5 * t, object.height - 0.5 * t);
    const double c = glm::dot(n, rim_centre) + 0.5 * t;
    const double heel_centre_radius = (c - style.heel + style.heel * sin_lean) / cos_lean;
    const double rim_start = rim_centre.y - 0.5 * t * sin_lean;
    const double rim_end = rim_centre.y + 0.5 * t * sin_lean;

    Vessel cup;
    cup.wall = object.wall;
    cup.inner_bottom = style.base;
    cup.inner_top = rim_end;
    cup.relief = side_relief(object, style.heel * (1 - sin_lean), rim_start);

    OutlinePen pen({0, 0}, 0);
    pen.line_to_radius(heel_centre_radius).bend(style.heel, kQuarterTurn - style.lean);
    draw_side(pen, cup.relief, rim_start);
    pen.bend(0.5 * t, kPi);
    const size_t outside_pieces = pen.size();
    pen.line_to_height(style.base + style.fillet * (1 - sin_lean));
    pen.bend(style.fillet, style.lean - kQuarterTurn).line_to_radius(0);

    put_outline(pen.outline(), outside_pieces, cup);
    return cup;
}

// An S of two arcs, which turn by the same angle β to opposite sides. Their radii are r1 and r2.
// The S ends in the heading in which it starts, `along` metres further in that direction and
// `across` metres to the side of it:
//   across = (r1 + r2)(1 - cos β), along = (r1 + r2) sin β, so β = 2 arctan(across/along).
struct SBend {
    double angle;   // rad, β
    double first;   // m, r1
    double second;  // m, r2
};

// `first_share` is r1/(r1 + r2).
SBend s_bend(double across, double along, double first_share) {
    const double angle = 2 * std::atan(across / along);
    const double radius_sum = along / std::sin(angle);
    return {angle, first_share * radius_sum, (1 - first_share) * radius_sum};
}

// The proportions in which a bottle and a demijohn differ.
struct BottleStyle {
    double neck;         // radius of the neck over the radius of the body
    double lip;          // how far the collar stands out from the neck, over the neck's radius
    double heel;         // radius of the heel's arc over the body's diameter
    double punt;         // height of the punt over the body's diameter
    double shoulder;     // least height of the shoulder over the bottle's height
    double neck_length;  // length of the neck below the collar over the bottle's height
};

constexpr BottleStyle kBottle{
    .neck = 0.35, .lip = 0.12, .heel = 0.1, .punt = 0.1, .shoulder = 0.22, .neck_length = 0.14};
constexpr BottleStyle kDemijohn{
    .neck = 0.2, .lip = 0.2, .heel = 0.3, .punt = 0.05, .shoulder = 0.35, .neck_length = 0.07};

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
    const double rise = std::max(style.shoulder * height, kLeastShoulderRise * (radius - neck));
    const SBend shoulder = s_bend(radius - neck, rise, 0.6);
    const SBend outer_punt = s_bend(punt, radius - heel, 0.85);
    const SBend inner_punt = s_bend(punt, radius - t - fillet, 0.85);
    const double lip_turn = kPi / 3;         // two arcs of radius `lip` shift the line by `lip`
    const double collar_height = 1.5 * lip;  // of the collar's straight part

    const double rim_start = height - rim_radius;
    const double neck_top = rim_start - collar_height - 2 * lip * std::sin(lip_turn);
    const double neck_base = neck_top - style.neck_length * height;
    const double body_top = neck_base - rise;

    Vessel bottle;
    bottle.wall = object.wall;
    bottle.inner_bottom = base;
    bottle.inner_top = rim_start;
    bottle.relief = side_relief(object, heel, body_top);

    OutlinePen pen({0, punt}, 0);
    pen.bend(outer_punt.first, -outer_punt.angle).bend(outer_punt.second, outer_punt.angle);
    pen.bend(heel, kQuarterTurn);
    draw_side(pen, bottle.relief, body_top);
    pen.bend(shoulder.first, shoulder.angle).bend(shoulder.second, -shoulder.angle);
    pen.line_to_height(neck_top).bend(lip, -lip_turn).bend(lip, lip_turn);
    pen.line_to_height(rim_start).bend(rim_radius, kPi);
    const size_t outside_pieces = pen.size();
    pen.line_to_height(neck_base);
    pen.bend(shoulder.second + t, shoulder.angle).bend(shoulder.first - t, -shoulder.angle);
    pen.line_to_height(base + fillet).bend(fillet, -kQuarterTurn);
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
    const double flare = 0.6 * radius;  // radius of the arc between the neck and the leaning mouth
    const double mouth_height = 0.22 * height;  // from the end of that arc to the top
    const double neck_length = 0.06 * height;   // of the straight neck
    const double rise = std::max(0.3 * height, kLeastShoulderRise * (radius - neck));
    const SBend shoulder = s_bend(radius - neck, rise, 0.5);

    // The rim's circle touches the leaning line from inside; its top is the height.
    const double rim_start = height - 0.5 * t * (1 + std::sin(lean));
    const double rim_end = height - 0.5 * t * (1 - std::sin(lean));
    const double neck_top = height - mouth_height - flare * std::sin(lean);
    const double neck_base = neck_top - neck_length;
    const double body_top = neck_base - rise;

    Vessel carafe;
    carafe.wall = object.wall;
    carafe.inner_bottom = base;
    carafe.inner_top = rim_end;
    carafe.relief = side_relief(object, heel, body_top);

    OutlinePen pen({0, 0}, 0);
    pen.line_to_radius(radius - heel).bend(heel, kQuarterTurn);
    draw_side(pen, carafe.relief, body_top);
    pen.bend(shoulder.first, shoulder.angle).bend(shoulder.second, -shoulder.angle);
    pen.line_to_height(neck_top).bend(flare, -lean).line_to_height(rim_start).bend(0.5 * t, kPi);
    const size_t outside_pieces = pen.size();
    pen.line_to_height(neck_top + (flare + t) * std::sin(lean)).bend(flare + t, lean);
    pen.line_to_height(neck_base);
    pen.bend(shoulder.second + t, shoulder.angle).bend(shoulder.first - t, -shoulder.angle);
    pen.line_to_height(base + fillet).bend(fillet, -kQuarterTurn).line_to_radius(0);

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
    rod.relief = side_relief(object, edge, object.height - edge);
    OutlinePen pen({0, 0}, 0);
    pen.line_to_radius(0.5 * object.diameter - edge).bend(edge, kQuarterTurn);
    draw_side(pen, rod.relief, object.height - edge);
    pen.bend(edge, kQuarterTurn).line_to_radius(0);
    rod.glass = pen.outline();
    return rod;
}

Relief make_pane_relief(const GlassObject& object) {
    if (object.surface == GlassSurface::kPlain) return {};
    const double edge = std::min(0.04 * object.width, 0.04 * object.height);
    Relief relief = common_relief(object, 0, object.height);
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
