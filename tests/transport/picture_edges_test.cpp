// How far lenses see to the sides.
#include "transport/picture_edges.h"

#include <doctest/doctest.h>

#include "transport/lens.h"

using namespace dapple;

namespace {

Camera edge_camera(const std::string& lens) {
    Camera camera;
    camera.focal_length = lens == "wide" ? 0.028F : 0.05F;
    camera.focus_distance = 4;
    camera.f_number = 8;
    camera.lens.name = lens;
    camera.lens.draws = !lens.empty();
    return camera;
}

bool shows(const Camera& camera, const Vec2& tangents) {
    const Point point = camera.position + 4.0F * (camera.frame.n + tangents.x * camera.frame.s +
                                                  tangents.y * camera.frame.t);
    Lens::Projection seen;
    return Lens(camera, true).project(point, 0.5F, 0.5F, seen);
}

}  // namespace

TEST_CASE("a point just inside the picture's edges is in it, and one just outside is not") {
    for (const char* lens : {"", "normal", "wide", "portrait"}) {
        CAPTURE(lens);
        const Camera camera = edge_camera(lens);
        const PictureEdges edges = find_picture_edges(camera);
        for (const Vec2& side : {Vec2(1, 0), Vec2(0, 1)}) {
            CHECK(shows(camera, 0.998F * side * edges.middles));
            CHECK_FALSE(shows(camera, 1.002F * side * edges.middles));
        }
        // Rims stop a part of the light to a corner, and what is left there has no one middle.
        CHECK_FALSE(shows(camera, 1.01F * edges.outermost));
    }
}

TEST_CASE("a lens with barrel distortion sees more than a thin one") {
    Camera thin = edge_camera("wide");
    thin.lens.draws = false;
    const PictureEdges straight = find_picture_edges(thin);
    const PictureEdges bent = find_picture_edges(edge_camera("wide"));
    CHECK(straight.outermost.x == doctest::Approx(straight.middles.x));
    CHECK(bent.middles.x > 1.005F * straight.middles.x);
    CHECK(bent.outermost.x > 1.01F * straight.outermost.x);
}
