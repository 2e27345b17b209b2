#include "scene/boards_and_figures/figure_places.h"

#include <cmath>

namespace dapple {

namespace {

// In shares of the height. geometry/lay_figure makes the body around them, and a test compares.
constexpr float kChestHeight = 0.72F;
constexpr float kEyeHeight = 0.935F;
constexpr float kSeatHeight = 0.235F;
const Vec3 kSeatedTrunk(0, -0.245F, -0.265F);  // where a seated trunk is, from the standing one

Point place_of(const StandIn& figure, float height) {
    Vec3 at(0, height, 0);
    if (figure.pose == Pose::kSeated) at += kSeatedTrunk;
    const float c = std::cos(figure.turn);
    const float s = std::sin(figure.turn);
    return figure.position + figure.height * Vec3(c * at.x + s * at.z, at.y, c * at.z - s * at.x);
}

}  // namespace

Point figure_chest(const StandIn& figure) {
    return place_of(figure, kChestHeight);
}

Point figure_face(const StandIn& figure) {
    return place_of(figure, kEyeHeight);
}

Point figure_seat(const StandIn& figure) {
    StandIn seated = figure;
    seated.pose = Pose::kSeated;
    Point seat = place_of(seated, 0);
    seat.y = figure.position.y + figure.height * kSeatHeight;
    return seat;
}

}  // namespace dapple
