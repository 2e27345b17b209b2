#include "published/meter_sets.h"

#include <doctest/doctest.h>

#include <cmath>

#include "geometry/world.h"
#include "render/test_scenes.h"

namespace dapple::published {

std::array<Face, 6> faces_of_box(const Vec3& half) {
    const Vec2 of_y(2 * half.x, 2 * half.z);
    const Vec2 of_x(2 * half.z, 2 * half.y);
    const Vec2 of_z(2 * half.x, 2 * half.y);
    return {{{"floor", Point(0, -half.y, 0), Direction(0, 1, 0), of_y},
             {"ceiling", Point(0, half.y, 0), Direction(0, -1, 0), of_y},
             {"wall at -x", Point(-half.x, 0, 0), Direction(1, 0, 0), of_x},
             {"wall at +x", Point(half.x, 0, 0), Direction(-1, 0, 0), of_x},
             {"wall at -z", Point(0, 0, -half.z), Direction(0, 0, 1), of_z},
             {"wall at +z", Point(0, 0, half.z), Direction(0, 0, -1), of_z}}};
}

Scene box_scene(const Vec3& half, const std::array<float, 6>& reflectances) {
    Scene scene;
    std::array<MaterialId, 6> materials{};
    for (size_t i = 0; i < materials.size(); ++i) {
        const float r = reflectances[i];
        materials[i] = r > 0 ? test::add_material(scene, test::lambertian("wall", r)) : kNoMaterial;
    }
    scene.room.push_back(test::box_room(half, materials));
    return scene;
}

Scene box_scene(const Vec3& half, float reflectance) {
    std::array<float, 6> all{};
    all.fill(reflectance);
    return box_scene(half, all);
}

Fixture point_lamp(const Point& position, double lumens) {
    Fixture f = test::fixture_of(FixtureForm::kBare, position, position - Vec3(0, 1, 0), lumens);
    f.source_diameter = 0;
    return f;
}

Fixture even_light(const Point& centre, float side, double lux) {
    const float height = 200 * side;
    Fixture f = test::fixture_of(FixtureForm::kSpot, centre + Vec3(0, height, 0), centre, 0);
    f.source_diameter = 0;
    f.beam_angle = 0.02F;
    f.field_angle = 0.022F;
    f.output = OutputKind::kLux;
    f.output_value = lux;
    f.output_distance = height;
    return f;
}

Meter point_meter(const Point& position, const Direction& facing) {
    Meter m;
    m.position = position;
    m.facing = glm::normalize(facing);
    return m;
}

Meter rectangle_meter(const Point& centre, const Direction& facing, const Vec2& size) {
    Meter m = point_meter(centre, facing);
    m.size = size;
    return m;
}

Meter disc_meter(const Point& centre, const Direction& facing, float diameter) {
    Meter m = point_meter(centre, facing);
    m.diameter = diameter;
    return m;
}

std::vector<Meter> face_meters(const Vec3& half) {
    std::vector<Meter> meters;
    for (const Face& face : faces_of_box(half)) {
        meters.push_back(
            rectangle_meter(face.centre + kOffWall * face.inward, face.inward, face.size));
        meters.back().name = face.name;
    }
    return meters;
}

Readings::Readings(const Scene& scene, MeterOptions options) : lux_(scene.meters.size()) {
    if (options.passes == 0) options.passes = 64;
    // A region of the meters' film is the mean of one meter over the fixtures in each pass.
    const auto fixtures = static_cast<double>(scene.fixtures.size());
    options.on_pass = [&](const Progress& progress, const MeterFilm& film) {
        if (progress.passes < options.passes) return true;
        const auto& passes = film.state().region_passes;
        for (size_t m = 0; m < lux_.size(); ++m) {
            const size_t groups = passes[m].size() / static_cast<size_t>(progress.passes);
            lux_[m].assign(static_cast<size_t>(progress.passes), 0.0);
            for (size_t i = 0; i < passes[m].size(); ++i) {
                lux_[m][i / groups] += passes[m][i] * fixtures;
            }
        }
        return true;
    };
    const World world(scene);
    result_ = read_meters(scene, world, options);
    CHECK(result_.nonfinite_samples == 0);
}

Estimate Readings::sum(const std::vector<Weighted>& parts) const {
    const size_t passes = lux_.front().size();
    const auto n = static_cast<double>(passes);
    std::vector<double> sums(passes, 0.0);
    for (const Weighted& part : parts) {
        for (size_t p = 0; p < passes; ++p) sums[p] += part.weight * lux_[part.meter][p];
    }
    Estimate e;
    for (const double s : sums) e.value += s / n;
    double squares = 0;
    for (const double s : sums) squares += (s - e.value) * (s - e.value);
    e.stderr_of_mean = std::sqrt(squares / (n * (n - 1)));
    return e;
}

Estimate scaled(const Estimate& e, double factor, double plus) {
    return {factor * e.value + plus, std::abs(factor) * e.stderr_of_mean};
}

}  // namespace dapple::published
