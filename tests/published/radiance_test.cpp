// Radiance where light passes into a denser medium and out of it: L/n² is kept.
#include <doctest/doctest.h>

#include <cmath>
#include <functional>

#include "published/published.h"
#include "published/traced.h"
#include "render/furnace.h"
#include "transport/camera_walk.h"

namespace radiance_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Radiance in dense media");
const char* const kInvariant = "L/n² is invariant; Nicodemus 1963";
constexpr float kLuminance = test::kFurnaceLuminance;

// Silica has n = 1.458 at this wavelength, by Malitson's formula, and absorbs nothing.
constexpr double kSilicaNm = 601.135;

// The share of light that passes the plane x = 0.5 m of a block of glass that fills |x| < 0.5,
// averaged over the Lambertian light of a hemisphere.
double lambertian_share(bool from_inside, const std::function<double(double)>& passes) {
    constexpr int kSteps = 100000;
    const Bench bench(pane_scene(1), kAnyWavelength);
    const Point start(from_inside ? 0.0F : 1.0F, 0, 0);
    const MediumStack media = find_media(bench.stage().scene, bench.stage().world, start);
    double sum = 0;
    for (int i = 0; i < kSteps; ++i) {
        const double sin2 = (i + 0.5) / kSteps;
        const double turn = 0.618034 * i * 2 * kPi;
        const glm::dvec3 direction(from_inside ? std::sqrt(1 - sin2) : -std::sqrt(1 - sin2),
                                   std::sqrt(sin2) * std::cos(turn),
                                   std::sqrt(sin2) * std::sin(turn));
        const glm::dvec3 on_face(0.5, 0, 0);
        Walk walk = Bench::walk(Point(on_face - 0.05 * direction), direction);
        walk.media = media;
        Vertex vertex;
        REQUIRE(find_vertex(bench, walk, 1.5F, vertex));
        sum += passes(go_on(bench, walk, vertex, Choice::kRefract));
    }
    return sum / kSteps;
}

// A furnace with a ball of clear silica around the camera.
Scene furnace_seen_from_inside() {
    auto [scene, silica] = test::SilicaFurnace();
    scene.glasses.push_back(test::ball_at(Point(0, -0.3F, 0), 0.6F, silica));
    scene.camera = test::camera_at(Point(0.05F, 0.02F, 0.1F), Point(0, 0, -1), 4, 3);
    return scene;
}

Estimate rendered_share(const Scene& scene, Transport transport, int passes) {
    const auto mean = test::render_furnace(scene, transport, passes).film.frame_luminance();
    return {mean.mean / kLuminance, mean.stderr_of_mean / kLuminance};
}

// A black tank of clear silica in a furnace. The camera is below its flat surface y = 0 and looks
// up, turned from the vertical by `degrees`.
Scene tank_scene(double degrees) {
    auto [scene, silica] = test::SilicaFurnace();
    const MaterialId black = test::add_material(scene, test::lambertian("black", 0));
    scene.room.push_back(drawn_out(
        {Vec2(-0.8F, -0.8F), Vec2(0.8F, -0.8F), Vec2(0.8F, 0), Vec2(-0.8F, 0)}, 0.8F, silica));
    // The walls and the floor of the tank are inside the silica.
    Mesh tank = test::box_room(Vec3(0.79F), black);
    for (Point& p : tank.positions) p.y = p.y > 0 ? -1e-4F : p.y;
    for (int i = 0; i < 2; ++i) {  // without the ceiling, the second face
        tank.triangles.erase(tank.triangles.begin() + 2);
        tank.materials.erase(tank.materials.begin() + 2);
    }
    scene.room.push_back(tank);
    const double angle = radians_from_degrees(degrees);
    const Point eye(0, -0.1F, 0);
    scene.camera = test::camera_at(eye, eye + Vec3(std::sin(angle), std::cos(angle), 0), 4, 3);
    scene.camera.focal_length = 20;  // a frame of a tenth of a degree
    return scene;
}

// Mean over the camera's walks, divided by the luminance of the furnace.
Estimate seen_through_surface(double degrees, int walks) {
    const Bench bench(tank_scene(degrees), kSilicaNm);
    Stage stage = bench.stage();
    WalkCounts counts;
    std::vector<Spectrum> by_fixture(stage.emitters.size());
    Tally tally;
    for (int i = 0; i < walks; ++i) {
        stage.pass = static_cast<uint32_t>(i / 12);
        trace_camera_walk(
            stage, i % 4, i / 4 % 3, {stage.pass, 0}, {by_fixture, {}, {}, {}}, counts);
        double seen = 0;
        for (Spectrum& light : by_fixture) {
            seen += light[0] / kLuminance;
            light = Spectrum(0.0F);
        }
        tally.add(seen);
    }
    CHECK(counts.nonfinite == 0);
    return tally.mean_of(walks);
}

}  // namespace

TEST_CASE("a surface scales radiance by the square of the index and flux not at all") {
    const SmoothGlass face{Spectrum(1.5F)};
    const auto scale = [&](float side, Carrying carrying) {
        BsdfSample s;
        REQUIRE(sample(face, Direction(0.3F, 0, side), Vec3(0, 0, 0.9999F), carrying, s));
        REQUIRE(s.transmitted);
        return s.weight[0];
    };
    const float z = std::sqrt(1 - square(0.3F));
    // A camera walk goes in the opposite direction to the light.
    kSubject.exact(
        "Radiance gained into n = 1.5", kInvariant, "", "2.2500", scale(-z, Carrying::kRadiance));
    kSubject.exact(
        "Radiance kept out of n = 1.5", kInvariant, "", "0.44444", scale(z, Carrying::kRadiance));
    kSubject.exact("Flux kept into n = 1.5", kInvariant, "", "1.0000", scale(z, Carrying::kFlux));
    kSubject.exact(
        "Flux kept out of n = 1.5", kInvariant, "", "1.0000", scale(-z, Carrying::kFlux));
}

TEST_CASE("the published shares of Lambertian light leave glass and enter it") {
    const auto any = [](double chance) { return chance > 0 ? 1.0 : 0.0; };
    const auto fresnel = [](double chance) { return chance; };
    kSubject.exact("Lambertian light in n = 1.5 within the critical angle of a flat face",
                   "1/n²; Born and Wolf",
                   "",
                   "0.4444",
                   lambertian_share(true, any));
    kSubject.exact("Lambertian light in n = 1.5 that escapes through a flat face",
                   "Fresnel's formulas, averaged; Born and Wolf",
                   "",
                   "0.40365",
                   lambertian_share(true, fresnel));
    kSubject.exact("Lambertian light in air that enters n = 1.5",
                   "Fresnel's formulas, averaged; Born and Wolf",
                   "",
                   "0.90822",
                   lambertian_share(false, fresnel));
}

// The radiance in the glass is n² times that outside. The lens has air behind it and divides the
// radiance by n², which gives that outside. Without those n² the figure would be 2.13.
TEST_CASE("a camera inside clear glass sees a furnace as it is") {
    kSubject.mean("Luminance of a furnace seen from inside a ball of silica, over that in air",
                  kInvariant,
                  "",
                  "1.0000",
                  rendered_share(furnace_seen_from_inside(), Transport::kCamera, 12000));
}

// From a white board in the glass light walks can reach the lens.
TEST_CASE("a camera inside clear glass sees a white board there as bright as the furnace") {
    Scene scene = furnace_seen_from_inside();
    Board board;
    board.kind = BoardKind::kBounce;
    board.centre = Point(0, 0, -0.05F);
    board.size = Vec2(0.15F);
    board.facing = glm::normalize(Vec3(0.1F, 0.2F, 1));
    board.material = test::add_material(scene, test::lambertian("white", 1));
    scene.boards.push_back(board);
    for (const Transport transport : {Transport::kCamera, Transport::kWalks}) {
        const char* const by =
            transport == Transport::kCamera ? ", by camera walks" : ", by both walks";
        kSubject.mean(
            std::string("Luminance of a white board in a ball of silica in a furnace, over "
                        "that in air") +
                by,
            kInvariant,
            "",
            "1.0000",
            rendered_share(scene, transport, 12000));
    }
}

TEST_CASE("a camera below a flat surface sees the world through Snell's window") {
    const std::pair<const char*, const char*> rows[] = {{"0", "0.96528"},
                                                        {"20", "0.96387"},
                                                        {"30", "0.95341"},
                                                        {"40", "0.84231"},
                                                        {"42", "0.70111"}};
    for (const auto& [degrees, seen] : rows) {
        kSubject.mean("Seen upwards from under n = 1.458, " + std::string(degrees) +
                          "° from the vertical, over the luminance above",
                      "1 - R by Fresnel, and L/n²; Born and Wolf, Nicodemus 1963",
                      "",
                      seen,
                      seen_through_surface(std::stod(degrees), 60000));
    }
    const Estimate outside = seen_through_surface(45, 1200);
    kSubject.exact("Seen upwards from under n = 1.458, 45° from the vertical, in a black tank",
                   "total reflection; Hecht, Optics",
                   "",
                   "0.0000",
                   outside.value);
}

}  // namespace radiance_test
