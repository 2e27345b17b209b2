#include "scene/boards_and_figures/figure_places.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "geometry/lay_figure/make_stand_in.h"
#include "scene/models/check_mesh.h"

namespace dapple {

namespace {

// Whether a part of the figure's body is around the point.
bool is_in_body(const StandIn& figure, const Point& at) {
    const std::vector<Mesh> meshes = make_stand_in(figure);
    const std::vector<Shell> shells = find_shells(meshes.front());
    return std::any_of(shells.begin(), shells.end(), [&](const Shell& shell) {
        return contains(meshes.front(), shell, at);
    });
}

}  // namespace

TEST_CASE("the chest and the face that lamps are aimed at are inside the body, in every pose") {
    for (const Pose pose : {Pose::kStanding, Pose::kSeated, Pose::kArmRaised}) {
        for (const float turn : {0.0F, 1.0F, -2.5F}) {
            StandIn figure;
            figure.pose = pose;
            figure.position = Point(1, 0.2F, -3);
            figure.turn = turn;
            figure.height = 1.65F;
            CHECK(is_in_body(figure, figure_chest(figure)));
            CHECK(is_in_body(figure, figure_face(figure)));
            CHECK(figure_face(figure).y > figure_chest(figure).y + 0.3F);
            CHECK_FALSE(is_in_body(figure, figure_face(figure) + Vec3(0, 0.2F, 0)));
        }
    }
}

TEST_CASE("a seat as high and as far back as is said touches a seated figure from below") {
    StandIn figure;
    figure.pose = Pose::kSeated;
    figure.position = Point(0.3F, 0.1F, -1);
    for (const float height : {1.2F, 1.7F, 2.0F}) {
        for (const float turn : {0.0F, 1.0F, -2.5F}) {
            figure.height = height;
            figure.turn = turn;
            const Point seat = figure_seat(figure);
            CHECK(seat.y == doctest::Approx(0.1 + 0.235 * height));
            CHECK(is_in_body(figure, seat + Vec3(0, 0.02F, 0)));
            CHECK_FALSE(is_in_body(figure, seat - Vec3(0, 0.03F, 0)));
        }
    }
}

}  // namespace dapple
