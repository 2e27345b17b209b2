#include "published/random_sets.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/random.h"
#include "base/units.h"
#include "render/test_scenes.h"

namespace dapple::published {

namespace {

constexpr float kOffLamp =
    1e-4F;  // m; more than kOffWall, because a lamp's sphere is made of facets

class Maker {
  public:
    explicit Maker(uint64_t number) : random_(171, 0, number, Purpose::kTest) {}

    RandomSet make() {
        add_walls();
        // Each thing is alone in one eighth of the box.
        std::vector<Point> cells;
        for (const float x : {-0.5F, 0.5F}) {
            for (const float y : {-0.5F, 0.5F}) {
                for (const float z : {-0.5F, 0.5F}) cells.push_back(Vec3(x, y, z) * half_);
            }
        }
        for (size_t i = cells.size() - 1; i > 0; --i) std::swap(cells[i], cells[up_to(i + 1)]);
        const size_t lamps = 1 + up_to(3);
        const size_t glasses = up_to(3);
        const size_t sheets = up_to(3);
        for (size_t i = 0; i < lamps; ++i) add_lamp(cells[i]);
        for (size_t i = 0; i < glasses; ++i) add_glass(cells[lamps + i]);
        for (size_t i = 0; i < sheets; ++i) add_sheet(cells[lamps + glasses + i]);
        return std::move(set_);
    }

  private:
    float between(float low, float high) { return low + (high - low) * random_.next(); }
    size_t up_to(size_t count) {  // 0 … count - 1
        return std::min(count - 1, static_cast<size_t>(random_.next() * static_cast<float>(count)));
    }
    Direction any_direction() {
        const float z = between(-1, 1);
        const float phi = between(0, 2 * kPiF);
        const float r = std::sqrt(std::max(0.0F, 1 - z * z));
        return Direction(r * std::cos(phi), r * std::sin(phi), z);
    }

    void meter(const Meter& meter, double weight) {
        set_.kept.push_back({set_.scene.meters.size(), weight});
        set_.scene.meters.push_back(meter);
    }

    void add_walls() {
        half_ = Vec3{between(0.9F, 2), between(0.9F, 1.6F), between(0.9F, 2.2F)};
        std::array<float, 6> reflectances{};
        for (float& r : reflectances) r = std::max(0.0F, between(-0.1F, 0.9F));
        set_.scene = box_scene(half_, reflectances);
        const std::vector<Meter> meters = face_meters(half_);
        const auto faces = faces_of_box(half_);
        for (size_t i = 0; i < faces.size(); ++i) {
            meter(meters[i], (1.0 - reflectances[i]) * faces[i].area());
        }
    }

    // A lamp's face absorbs all light that reaches it.
    void add_lamp(const Point& at) {
        const size_t form = up_to(3);
        const double lumens = between(300, 3000);
        Fixture f =
            test::fixture_of(static_cast<FixtureForm>(form), at, at + any_direction(), lumens);
        f.beam_angle = between(0.2F, 0.7F);
        f.field_angle = f.beam_angle * between(1.3F, 1.8F);
        f.source_diameter = std::max(0.0F, between(-0.1F, 0.3F));
        f.panel_size = Vec2{between(0.05F, 0.5F), between(0.05F, 0.5F)};
        const Point front = at + kOffLamp * f.axis;
        const Point back = at - kOffLamp * f.axis;
        const double disc = kPi * square(0.5F * f.source_diameter);
        if (f.form == FixtureForm::kPanel) {
            const double area = static_cast<double>(f.panel_size.x) * f.panel_size.y;
            meter(rectangle_meter(front, f.axis, f.panel_size), area);
            meter(rectangle_meter(back, -f.axis, f.panel_size), area);
        } else if (f.source_diameter > 0 && f.form == FixtureForm::kSpot) {
            meter(disc_meter(front, f.axis, f.source_diameter), disc);
            meter(disc_meter(back, -f.axis, f.source_diameter), disc);
        } else if (f.source_diameter > 0) {
            for (const float side : {-1.0F, 1.0F}) {
                Meter dome = disc_meter(at, side * f.axis, f.source_diameter + 2 * kOffLamp);
                dome.receptor = ReceptorKind::kDome;
                meter(dome, disc);
            }
        }
        set_.scene.fixtures.push_back(f);
        set_.lumens += lumens;
    }

    // Silica, empty or filled with acrylic; neither absorbs light.
    void add_glass(const Point& at) {
        constexpr GlassForm kForms[] = {
            GlassForm::kBall, GlassForm::kTumbler, GlassForm::kJar, GlassForm::kPane};
        Scene& scene = set_.scene;
        GlassObject g;
        g.form = kForms[up_to(4)];
        g.height = between(0.12F, 0.4F);
        g.diameter = g.form == GlassForm::kBall ? g.height : between(0.1F, 0.35F);
        g.width = between(0.1F, 0.4F);
        g.wall = 0.04F * std::min(g.diameter, g.height);
        g.turn = between(0, 6);
        g.tilt = between(-0.9F, 0.9F);
        const Direction up(std::sin(g.tilt) * std::sin(g.turn),
                           std::cos(g.tilt),
                           std::sin(g.tilt) * std::cos(g.turn));
        g.position = at - 0.5F * g.height * up;
        g.material = test::add_material(scene, test::clear_glass("glass", GlassType::kSilica));
        const bool vessel = g.form == GlassForm::kTumbler || g.form == GlassForm::kJar;
        if (vessel && up_to(2) == 1) {
            Material filling = test::clear_glass("filling", GlassType::kAcrylic);
            filling.priority = 5;
            g.liquid = test::add_material(scene, filling);
            g.liquid_level = between(0.2F, 0.9F);
        }
        scene.glasses.push_back(g);
    }

    // Cloth of all spreads, some with an open weave and some that absorbs; a clear pane without
    // thickness; white metal.
    void add_sheet(const Point& at) {
        Board b;
        b.centre = at;
        b.facing = any_direction();
        b.size = Vec2{between(0.1F, 0.5F), between(0.1F, 0.5F)};
        double taken = 0;
        Material m;
        switch (up_to(4)) {
            case 0:
                m.kind = MaterialKind::kThinGlass;
                m.glass = GlassType::kSilica;
                break;
            case 1:
                m = test::lambertian("metal", 1);
                m.kind = MaterialKind::kConductor;
                m.roughness = between(0, 0.8F);
                break;
            default: {
                const float reflected = between(0, 0.6F);
                const float transmitted = between(0, 1 - reflected);
                const bool lossless = up_to(2) == 1;
                m = test::sheet("cloth",
                                reflected,
                                lossless ? 1 - reflected : transmitted,
                                between(0, 0.6F) * transmitted);
                m.spread = between(0.1F, 1.2F);
                taken = lossless ? 0 : 1.0 - reflected - transmitted;
                b.kind = BoardKind::kDiffuser;
            }
        }
        b.material = test::add_material(set_.scene, m);
        if (taken > 0) {
            const double weight = taken * b.size.x * b.size.y;
            for (const float side : {-1.0F, 1.0F}) {
                const Direction facing = side * b.facing;
                meter(rectangle_meter(at + kOffWall * facing, facing, b.size), weight);
            }
        }
        set_.scene.boards.push_back(b);
    }

    RandomStream random_;
    Vec3 half_{0};
    RandomSet set_;
};

}  // namespace

RandomSet make_random_set(uint64_t number) {
    return Maker(number).make();
}

}  // namespace dapple::published
