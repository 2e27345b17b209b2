// The patterns in glass, and whether the facets of their meshes are visible in the light behind.
#include "geometry/glassware/make_glass_relief.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "base/random.h"
#include "geometry/glassware/glass_samples.h"
#include "geometry/glassware/make_glass_bubbles.h"
#include "geometry/glassware/outline_measure.h"
#include "geometry/world.h"
#include "scene/models/check_mesh.h"

namespace dapple {

namespace {

constexpr GlassSurface kPatterns[] = {
    GlassSurface::kRibbed, GlassSurface::kReeded, GlassSurface::kHammered, GlassSurface::kWavy};

Relief round_relief(GlassSurface surface) {
    GlassObject jar = sample_glass(GlassForm::kJar, 0.2F, 0.1F, 0.003F);
    jar = with_twist(with_pattern(jar, surface, 0.012F, 0.0006F), 0.8F);
    jar.ribs = 24;
    return make_vessel(jar).relief;
}

// A pane as a world, and the relief of its front.
struct PaneWorld {
    Scene scene;
    Relief relief;
    World world;

    explicit PaneWorld(const GlassObject& pane)
        : scene(scene_with(pane)), relief(make_pane_relief(pane)), world(scene) {}

    static Scene scene_with(GlassObject pane) {
        Scene scene;
        scene.materials.emplace_back().kind = MaterialKind::kGlass;
        pane.material = 0;
        pane.air = 0;
        scene.glasses.push_back(pane);
        return scene;
    }

    // The normal that light through the front is refracted by.
    glm::dvec3 mesh_normal(const glm::dvec2& p) const {
        const Ray ray{Point(p.x, p.y, 0.1), Direction(0, 0, -1)};
        Hit hit;
        REQUIRE(world.closest(ray, hit));
        return glm::dvec3(world.surface_at(ray, hit).shading);
    }
    glm::dvec3 true_normal(const glm::dvec2& p) const {
        const ReliefPoint at = relief.at(p.x, p.y);
        return glm::normalize(glm::dvec3(at.along_x, at.along_y, 1));
    }
};

constexpr double kIndex = 1.52;

// Where light that comes along z through the flat back lands on a wall `distance` in front.
glm::dvec2 landing(const glm::dvec2& from, const glm::dvec3& normal, double distance) {
    const glm::dvec3 out = glm::refract(glm::dvec3(0, 0, 1), -normal, kIndex);
    return from + distance / out.z * glm::dvec2(out);
}

// Light on the wall. Each ray is shared among the four squares around it, by its distance from
// each.
class Wall {
  public:
    Wall(double half, int squares)
        : half_(half), squares_(squares), light_(static_cast<size_t>(squares * squares)) {}

    void add(const glm::dvec2& at) {
        const double x = (at.x + half_) / (2 * half_) * squares_ - 0.5;
        const double y = (at.y + half_) / (2 * half_) * squares_ - 0.5;
        const int left = static_cast<int>(std::floor(x));
        const int low = static_cast<int>(std::floor(y));
        if (left < 0 || low < 0 || left + 1 >= squares_ || low + 1 >= squares_) return;
        for (int j = 0; j < 2; ++j) {
            for (int i = 0; i < 2; ++i) {
                const double share = (1 - std::abs(x - left - i)) * (1 - std::abs(y - low - j));
                light_[static_cast<size_t>((low + j) * squares_ + left + i)] += share;
            }
        }
    }
    const std::vector<double>& light() const { return light_; }

  private:
    double half_;
    int squares_;
    std::vector<double> light_;
};

double root_mean_square(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0;
    for (size_t i = 0; i < a.size(); ++i) sum += (a[i] - b[i]) * (a[i] - b[i]);
    return std::sqrt(sum / static_cast<double>(a.size()));
}

double mean(const std::vector<double>& a) {
    double sum = 0;
    for (const double x : a) sum += x;
    return sum / static_cast<double>(a.size());
}

}  // namespace

TEST_CASE(
    "a pattern is between 0 and its depth deep, closes around a solid, and has the right slopes") {
    RandomStream random(3, 0, 0, Purpose::kTest);
    for (const GlassSurface surface : kPatterns) {
        CAPTURE(static_cast<int>(surface));
        const Relief round = round_relief(surface);
        const Relief flat = make_pane_relief(
            with_pattern(sample_pane(0.1F, 0.2F, 0.004F), surface, 0.012F, 0.0006F));
        for (const Relief& relief : {round, flat}) {
            double deepest = 0;
            for (int i = 0; i < 2000; ++i) {
                const double x = relief.count > 0 ? 2 * kPi * random.next()
                                                  : relief.half * (2 * random.next() - 1);
                const double y = relief.low + (relief.high - relief.low) * random.next();
                const ReliefPoint at = relief.at(x, y);
                REQUIRE(at.cut >= -1e-12);
                REQUIRE(at.cut <= relief.depth + 1e-12);
                deepest = std::max(deepest, at.cut);
                constexpr double kStep = 1e-6;
                const double along_x =
                    (relief.at(x + kStep, y).cut - relief.at(x - kStep, y).cut) / (2 * kStep);
                const double along_y =
                    (relief.at(x, y + kStep).cut - relief.at(x, y - kStep).cut) / (2 * kStep);
                // Across a reed's joint, where the second derivative jumps, by half a step times
                // that jump: depth 4/b per square of a period, 2.4e-3/0.1 over 1.2e-2 squared,
                // times 1e-6/2.
                REQUIRE(std::abs(at.along_x - along_x) < 1e-4);
                REQUIRE(std::abs(at.along_y - along_y) < 1e-4);
                if (relief.count > 0) {
                    REQUIRE(std::abs(relief.at(x + 2 * kPi, y).cut - at.cut) < 1e-12);
                }
            }
            CHECK(deepest > 0.6 * relief.depth);
            CHECK(relief.at(0.01, relief.low).cut < 1e-12);
            CHECK(relief.at(0.01, relief.high).cut < 1e-12);
        }
    }
}

TEST_CASE("another seed makes other dents and waves, the same seed the same") {
    for (const GlassSurface surface : {GlassSurface::kHammered, GlassSurface::kWavy}) {
        Relief relief = round_relief(surface);
        const double y = 0.5 * (relief.low + relief.high);
        const double first = relief.at(1, y).cut;
        CHECK(relief.at(1, y).cut == first);
        relief.seed = 2;
        CHECK(std::abs(relief.at(1, y).cut - first) > 1e-6);
    }
}

// A reed is a cylindrical lens of radius p² a / (4 d) at its crest (E58), so that
// f = p² a / (4 d (n - 1)).
TEST_CASE("a reeded pane's reeds focus at the focal length of their radius") {
    const float pitch = 0.02F;
    const float depth = 0.001F;
    const PaneWorld pane(
        with_pattern(sample_pane(0.3F, 0.3F, 0.004F), GlassSurface::kReeded, pitch, depth));
    const double focus = pitch * pitch * 0.4 / (4 * depth * (kIndex - 1));
    for (const double off : {0.0005, 0.001}) {  // near the axis: third order is below 1 %
        const glm::dvec2 from(off, 0.15);
        const glm::dvec2 there = landing(from, pane.mesh_normal(from), focus);
        CHECK(std::abs(there.x) < 0.01 * off);
        CHECK(there.y == doctest::Approx(0.15).epsilon(1e-6));
    }
}

// No facet is visible: on a wall 2 m away the light of the mesh's interpolated normals is that of
// the true ones. Squares of 3 mm stand for the blur of a source of 3 mm as far behind the glass.
TEST_CASE("the light through patterned panes is that of the pattern, not of the mesh's facets") {
    struct Case {
        GlassSurface surface;
        float pitch, depth;
    };
    for (const Case& c : {Case{GlassSurface::kReeded, 0.01F, 0.0003F},
                          Case{GlassSurface::kHammered, 0.012F, 0.0003F},
                          Case{GlassSurface::kWavy, 0.03F, 0.0003F}}) {
        CAPTURE(static_cast<int>(c.surface));
        const PaneWorld pane(
            with_pattern(sample_pane(0.2F, 0.2F, 0.004F), c.surface, c.pitch, c.depth));
        Wall by_mesh(0.06, 40);
        Wall by_pattern(0.06, 40);
        Wall by_plain(0.06, 40);
        constexpr int kRays = 300;
        for (int j = 0; j < kRays; ++j) {
            for (int i = 0; i < kRays; ++i) {
                const glm::dvec2 p(0.12 * ((i + 0.5) / kRays - 0.5),
                                   0.1 + 0.12 * ((j + 0.5) / kRays - 0.5));
                const glm::dvec2 centre(0, 0.1);
                by_mesh.add(landing(p, pane.mesh_normal(p), 2) - centre);
                by_pattern.add(landing(p, pane.true_normal(p), 2) - centre);
                by_plain.add(p - centre);
            }
        }
        const double level = mean(by_pattern.light());
        const double contrast = root_mean_square(by_pattern.light(), by_plain.light()) / level;
        const double wrong = root_mean_square(by_mesh.light(), by_pattern.light()) / level;
        CHECK(contrast > 0.2);
        CHECK(wrong < 0.02);  // 0.3 % reeded, 0.8 % hammered, 1.1 % wavy
    }
}

TEST_CASE("bubbles lie within the wall") {
    for (const GlassObject& sample : vessels()) {
        const GlassObject glass = with_bubbles(sample, 30, 0.8F * sample.wall);
        CAPTURE(describe(glass));
        const Vessel vessel = make_vessel(glass);
        const SolidMesh bubbles = make_bubbles(glass);
        REQUIRE(!bubbles.positions.empty());
        double nearest = kInfinity;
        double farthest = 0;
        for (const glm::dvec3& p : bubbles.positions) {
            const glm::dvec2 flat(std::hypot(p.x, p.z), p.y);
            const OutlineFoot foot = nearest_on(vessel.cavity, flat);
            const glm::dvec2 out = normal_at(*foot.piece, foot.s);
            const double depth =
                -glm::dot(flat - position_at(*foot.piece, foot.s), out);  // into the glass
            nearest = std::min(nearest, depth);
            farthest = std::max(farthest, depth);
        }
        CHECK(nearest > 0);
        CHECK(farthest < glass.wall);
    }
}

TEST_CASE("bubbles in panes, rods and balls lie inside them") {
    for (const GlassObject& glass :
         {with_bubbles(sample_pane(0.2F, 0.2F, 0.005F), 40, 0.003F),
          with_bubbles(sample_glass(GlassForm::kRod, 0.2F, 0.03F, 0), 40, 0.003F),
          with_bubbles(sample_glass(GlassForm::kBall, 0.06F, 0.06F, 0), 40, 0.003F)}) {
        CAPTURE(describe(glass));
        const std::vector<Mesh> meshes = make_glass(glass, Scene{});
        REQUIRE(meshes.size() == 2);
        const Bounds around = bounds_of(meshes[0]);
        float widest = 0;
        for (const Point& p : meshes[1].positions) {
            CHECK(glm::all(glm::lessThan(around.low, p)));
            CHECK(glm::all(glm::lessThan(p, around.high)));
            widest = std::max(widest,
                              glass.form == GlassForm::kBall ? glm::length(p - around.centre())
                                                             : std::hypot(p.x, p.z));
        }
        if (glass.form != GlassForm::kPane) CHECK(widest < 0.5F * glass.diameter);
    }
}

}  // namespace dapple
