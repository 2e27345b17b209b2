// The things in the frame that should not be there.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>

#include "render/in_frame/find_in_frame.h"
#include "render/in_frame/move_out.h"
#include "render/test_scenes.h"
#include "transport/lens.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kFrameWidth = 192;
constexpr int kFrameHeight = 128;

void turn_to(Fixture& f, const Point& aim) {
    f.aim = aim;
    f.axis = glm::normalize(aim - f.position);
}

Fixture small_spot(const std::string& name, const Point& position, const Point& aim) {
    Fixture f = fixture_of(FixtureForm::kSpot, position, aim, 500);
    f.name = name;
    f.housing_diameter = 0.12F;
    f.housing_length = 0.2F;
    turn_to(f, aim);
    return f;
}

Board board_at(Scene& scene, const std::string& name, BoardKind kind, const Point& centre) {
    Board board;
    board.name = name;
    board.kind = kind;
    board.centre = centre;
    board.aim = Point(0.3F, 0, 2.3F);
    board.facing = glm::normalize(*board.aim - centre);
    board.size = Vec2(0.3F, 0.2F);
    board.material = add_material(scene, lambertian(name, 0.5F));
    return board;
}

void draw_through_glass(Camera& camera) {
    camera.lens.name = "normal";
    camera.lens.draws = true;
    camera.focus_distance = 3;
    camera.f_number = 8;
}

// A room of 4 × 3 × 5 m with two spots, a flag and a board in view. Nothing is seen through glass
// or in mirrors.
Scene things_in_view() {
    Scene scene = room_without_glass();
    scene.camera =
        camera_at(Point(0.3F, 0, 2.3F), Point(-0.2F, -0.2F, -2), kFrameWidth, kFrameHeight);
    scene.camera.focal_length = 0.045F;
    scene.housing_material = add_material(scene, lambertian("housing", 0.04F));
    scene.fixtures = {small_spot("left spot", Point(-0.9F, 0.2F, -1), Point(0, 0, -2)),
                      small_spot("towards us", Point(0.6F, 0.4F, -1.5F), Point(0.3F, 0, 2))};
    scene.boards = {board_at(scene, "flag", BoardKind::kFlag, Point(0.1F, -0.5F, -0.5F)),
                    board_at(scene, "card", BoardKind::kBounce, Point(-0.6F, -0.6F, 0.4F))};
    return scene;
}

const InFrameThing* find(const InFrame& frame, const std::string& name, InFrameKind kind) {
    for (const InFrameThing& thing : frame.things) {
        if (thing.name == name && thing.kind == kind) return &thing;
    }
    return nullptr;
}

bool is_seen(const Scene& scene, const std::string& name) {
    const InFrame frame = find_in_frame(scene, World(scene));
    return std::any_of(frame.things.begin(), frame.things.end(), [&](const InFrameThing& t) {
        return t.name == name && t.way == SeenWay::kDirect;
    });
}

Vec3 step_of(const Scene& scene, const Move& move) {
    return static_cast<float>(move.distance) * direction_of(move.way, scene.camera);
}

}  // namespace

TEST_CASE("the list agrees with a count of first hits, pixel by pixel") {
    const Scene scene = things_in_view();
    const World world(scene);
    const InFrame frame = find_in_frame(scene, world);
    // Boards are known by their materials, lamps by their faces, housings by the nearer fixture.
    std::map<std::pair<std::string, InFrameKind>, int64_t> counted;
    int64_t masked = 0;
    const Lens lens(scene.camera);
    for (int y = 0; y < scene.camera.height; ++y) {
        for (int x = 0; x < scene.camera.width; ++x) {
            const Ray ray = lens.sample_ray(Vec2(x, y) + Vec2(0.5F), 0.5F, 0.5F).ray;
            Hit hit;
            REQUIRE(world.closest(ray, hit));
            const SurfacePoint at = world.surface_at(ray, hit);
            const bool is_thing = at.lamp >= 0 || at.material != 0;
            masked += is_thing ? 1 : 0;
            CHECK(frame.mask[static_cast<size_t>(y * scene.camera.width + x)] ==
                  (is_thing ? 1.0F : 0.0F));
            if (!is_thing) continue;
            if (at.lamp >= 0) {
                const Fixture& f = scene.fixtures[static_cast<size_t>(at.lamp)];
                ++counted[{f.name, InFrameKind::kFixture}];
            } else if (at.material == scene.housing_material) {
                const bool first = glm::distance(at.position, scene.fixtures[0].position) <
                                   glm::distance(at.position, scene.fixtures[1].position);
                ++counted[{scene.fixtures[first ? 0 : 1].name, InFrameKind::kHousing}];
            } else if (at.material == scene.boards[0].material) {
                ++counted[{"flag", InFrameKind::kFlag}];
            } else {
                ++counted[{"card", InFrameKind::kBounce}];
            }
        }
    }
    CHECK(masked > 100);
    REQUIRE(frame.things.size() == counted.size());
    for (const InFrameThing& thing : frame.things) {
        CAPTURE(thing.name);
        CHECK(thing.way == SeenWay::kDirect);
        CHECK(thing.pixels == counted[{thing.name, thing.kind}]);
        CHECK(thing.share ==
              doctest::Approx(static_cast<double>(thing.pixels) / (kFrameWidth * kFrameHeight)));
    }
    REQUIRE(find(frame, "towards us", InFrameKind::kFixture) != nullptr);
}

TEST_CASE("what is moved by the advice is gone, and a little less is not enough") {
    for (const bool is_glass : {false, true}) {
        Scene scene = things_in_view();
        for (Fixture& f : scene.fixtures) f.stand = !is_glass;
        if (is_glass) draw_through_glass(scene.camera);
        CAPTURE(is_glass);
        const InFrame frame = find_in_frame(scene, World(scene));
        for (size_t i = 0; i < scene.fixtures.size(); ++i) {
            const std::string name = scene.fixtures[i].name;
            CAPTURE(name);
            const InFrameThing* thing = find(frame, name, InFrameKind::kHousing);
            REQUIRE(thing != nullptr);
            REQUIRE(thing->of_thing.has_value());
            const auto moved = [&](double less) {
                Scene changed = scene;
                Move move = *thing->of_thing;
                move.distance -= less;
                changed.fixtures[i].position += step_of(scene, move);
                turn_to(changed.fixtures[i], *scene.fixtures[i].aim);
                return changed;
            };
            CHECK_FALSE(is_seen(moved(0), name));
            // A pixel is about 1.5 cm wide there.
            CHECK(is_seen(moved(0.1), name));
        }
    }
}

TEST_CASE("glass that stands on a table or on the floor may be in the frame") {
    Scene scene = things_in_view();
    const MaterialId glass = add_material(scene, clear_glass("ball", GlassType::kSodaLime));
    scene.glasses.push_back(ball_at(Point(0.8F, 0, 0), 0.2F, glass));
    CHECK(is_seen(scene, "ball"));
    Column table;
    table.name = "table";
    Bounds room;
    for (const Point& p : World(scene).corners_of({ThingKind::kRoom, 0})) room.add(p);
    Bounds ball;
    for (const Point& p : World(scene).corners_of({ThingKind::kGlass, 0})) ball.add(p);
    table.position = Point(ball.centre().x, room.low.y, ball.centre().z);
    table.height = ball.low.y - room.low.y - 1e-4F;
    table.material = add_material(scene, lambertian("table", 0.3F));
    scene.columns.push_back(table);
    CHECK_FALSE(is_seen(scene, "ball"));
    // 5 cm above the table it hangs.
    scene.columns[0].height -= 0.05F;
    CHECK(is_seen(scene, "ball"));
}

TEST_CASE("boards and glass that are moved by the advice are gone, or the camera is moved") {
    Scene scene = things_in_view();
    const MaterialId glass = add_material(scene, clear_glass("ball", GlassType::kSodaLime));
    scene.glasses.push_back(ball_at(Point(0.8F, 0, 0), 0.2F, glass));
    const InFrame frame = find_in_frame(scene, World(scene));
    const InFrameThing* ball = find(frame, "ball", InFrameKind::kGlass);
    REQUIRE(ball != nullptr);
    REQUIRE(ball->of_thing.has_value());
    Scene changed = scene;
    changed.glasses[0].position += step_of(scene, *ball->of_thing);
    CHECK_FALSE(is_seen(changed, "ball"));

    const InFrameThing* flag = find(frame, "flag", InFrameKind::kFlag);
    REQUIRE(flag != nullptr);
    REQUIRE(flag->of_thing.has_value());
    changed = scene;
    Board& board = changed.boards[0];
    board.centre += step_of(scene, *flag->of_thing);
    board.facing = glm::normalize(*board.aim - board.centre);
    CHECK_FALSE(is_seen(changed, "flag"));

    int cameras = 0;
    for (const InFrameThing& thing : frame.things) {
        if (!thing.of_camera) continue;
        changed = scene;
        changed.camera.position += step_of(scene, *thing.of_camera);
        CAPTURE(thing.name);
        CHECK_FALSE(is_seen(changed, thing.name));
        ++cameras;
    }
    CHECK(cameras > 0);
}

TEST_CASE("no advice leads through a wall, and a fixture on a stand is not lifted") {
    Scene scene = things_in_view();
    scene.fixtures[0].stand = true;
    const InFrame frame = find_in_frame(scene, World(scene));
    for (const InFrameThing& thing : frame.things) {
        if (!thing.of_thing) continue;
        CHECK(thing.of_thing->distance < 5);
        const bool lifts =
            thing.of_thing->way == MoveWay::kUp || thing.of_thing->way == MoveWay::kDown;
        if (thing.name == "left spot") CHECK_FALSE(lifts);
    }
    CHECK(find(frame, "left spot", InFrameKind::kStand) != nullptr);
}

TEST_CASE("a lamp behind the camera is seen in a mirror, and behind a pane through glass") {
    Scene scene = things_in_view();
    scene.boards.clear();
    scene.fixtures = {small_spot("behind", Point(0.2F, 0.9F, 2.4F), Point(0, 0, -2))};
    Material metal = lambertian("mirror", 0.9F);
    metal.kind = MaterialKind::kConductor;
    Board mirror = board_at(scene, "mirror", BoardKind::kBounce, Point(0, 0.2F, -2.4F));
    mirror.facing = Direction(0, 0, 1);
    mirror.size = Vec2(2, 2);
    mirror.material = add_material(scene, metal);
    scene.boards = {mirror};
    const InFrame mirrored = find_in_frame(scene, World(scene));
    const InFrameThing* lamp = find(mirrored, "behind", InFrameKind::kHousing);
    REQUIRE(lamp != nullptr);
    CHECK(lamp->way == SeenWay::kInMirror);
    CHECK_FALSE(lamp->of_thing.has_value());

    Material pane = lambertian("pane", 0.5F);
    pane.kind = MaterialKind::kThinGlass;
    scene.boards[0].kind = BoardKind::kDoor;  // a part of the room
    scene.boards[0].material = add_material(scene, pane);
    scene.boards[0].centre.z = 0;
    scene.fixtures[0] = small_spot("beyond", Point(0, 0.2F, -1), Point(0, 0, -2));
    const InFrame glazed = find_in_frame(scene, World(scene));
    const InFrameThing* beyond = find(glazed, "beyond", InFrameKind::kHousing);
    REQUIRE(beyond != nullptr);
    CHECK(beyond->way == SeenWay::kThroughGlass);
    CHECK(find(glazed, "mirror", InFrameKind::kBounce) == nullptr);
}

TEST_CASE("a mains cable is seen on the floor between its fixture and the nearest socket") {
    Scene scene = things_in_view();
    scene.boards.clear();
    scene.camera.frame = looking_frame(glm::normalize(Vec3(-0.5F, -1.2F, -4)));
    scene.power.mains = {Vec2(-0.2F, -2.4F), Vec2(1.9F, -2.4F)};
    scene.fixtures.resize(1);
    scene.fixtures[0].supply = Supply::kMains;
    const InFrame frame = find_in_frame(scene, World(scene));
    const InFrameThing* cable = find(frame, "left spot", InFrameKind::kCable);
    REQUIRE(cable != nullptr);
    // Every part of it that the lens sees is on the line from below the lamp to the left socket.
    const Lens lens(scene.camera);
    Lens::Projection at;
    REQUIRE(lens.project(Point(-0.55F, -1.5F, -1.7F), 0.5F, 0.5F, at));
    CHECK(frame.mask[static_cast<size_t>(at.raster.y) * kFrameWidth +
                     static_cast<size_t>(at.raster.x)] == 1.0F);
    scene.fixtures[0].supply = Supply::kBattery;
    CHECK(find(find_in_frame(scene, World(scene)), "left spot", InFrameKind::kCable) == nullptr);
}
