#include "geometry/glassware/make_glass_outline.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace dapple {

namespace {

constexpr double kRightAngle = kPi / 2;
constexpr double kNoLength = 1e-12;  // m or rad: shorter pieces are rounding

// The angle from `heading` to the next multiple of 90° in the direction of `sign`.
double angle_to_quarter(double heading, double sign) {
    const double quarters = sign * heading / kRightAngle;
    return (std::floor(quarters + 1 + 1e-9) - quarters) * kRightAngle;
}

}  // namespace

double heading_at(const OutlinePiece& piece, double s) {
    return piece.heading + piece.curvature * s;
}

glm::dvec2 position_at(const OutlinePiece& piece, double s) {
    const double h0 = piece.heading;
    if (piece.curvature == 0) return piece.start + s * glm::dvec2(std::cos(h0), std::sin(h0));
    const double h = heading_at(piece, s);
    return piece.start +
           glm::dvec2(std::sin(h) - std::sin(h0), std::cos(h0) - std::cos(h)) / piece.curvature;
}

glm::dvec2 normal_at(const OutlinePiece& piece, double s) {
    const double h = heading_at(piece, s);
    return {std::sin(h), -std::cos(h)};
}

void OutlinePen::add(double length, double curvature, bool patterned) {
    if (length <= kNoLength) return;
    outline_.push_back({.start = at_,
                        .heading = heading_,
                        .length = length,
                        .curvature = curvature,
                        .patterned = patterned});
    at_ = position_at(outline_.back(), length);
    heading_ = heading_at(outline_.back(), length);
}

OutlinePen& OutlinePen::line_to_height(double y, bool patterned) {
    const double length = (y - at_.y) / std::sin(heading_);
    assert(length > -1e-9 && "the outline would have to turn back to reach that height");
    add(length, 0, patterned);
    at_.y = y;
    return *this;
}

OutlinePen& OutlinePen::line_to_radius(double r) {
    const double length = (r - at_.x) / std::cos(heading_);
    assert(length > -1e-9 && "the outline would have to turn back to reach that radius");
    add(length, 0, false);
    at_.x = r;
    return *this;
}

OutlinePen& OutlinePen::bend(double radius, double angle) {
    assert(radius > 0);
    const double sign = angle < 0 ? -1 : 1;
    double left = std::abs(angle);
    while (left > kNoLength) {
        const double step = std::min(left, angle_to_quarter(heading_, sign));
        add(radius * step, sign / radius, false);
        left -= step;
    }
    return *this;
}

Outline offset_outline(const Outline& outline, double distance) {
    Outline moved = outline;
    for (OutlinePiece& piece : moved) {
        const double stretch = 1 + piece.curvature * distance;
        assert(stretch > 0 && "the offset is deeper than an arc's radius");
        piece.start += distance * normal_at(piece, 0);
        piece.length *= stretch;
        piece.curvature /= stretch;
    }
    return moved;
}

Outline reversed_outline(const Outline& outline) {
    Outline back;
    for (auto piece = outline.rbegin(); piece != outline.rend(); ++piece) {
        back.push_back({position_at(*piece, piece->length),
                        heading_at(*piece, piece->length) + kPi,
                        piece->length,
                        -piece->curvature,
                        piece->patterned});
    }
    return back;
}

}  // namespace dapple
