#include "published/drawn_prism.h"

#include <cmath>

#include "geometry/world.h"
#include "materials/glass_catalogue.h"
#include "published/traced.h"
#include "render/render_frame.h"
#include "render/schedule.h"
#include "spectrum/observer.h"

namespace dapple::published::drawn_prism {

namespace {

constexpr GlassType kGlass = GlassType::kLeadCrystal;

// Transmittance for unpolarised light, by the angles in air and in glass.
double fresnel_passes(double in_air, double in_glass) {
    if (in_air == 0) in_air = in_glass = 1e-6;
    const double s = std::sin(in_air - in_glass) / std::sin(in_air + in_glass);
    const double p = std::tan(in_air - in_glass) / std::tan(in_air + in_glass);
    return 1 - 0.5 * (s * s + p * p);
}

Point point_of(const glm::dvec2& p) {
    return Point(p, 0);
}

class Moments {
  public:
    void add(double place, const std::array<double, 3>& xyz) {
        for (size_t k = 0; k < 3; ++k) {
            sum_[k] += xyz[k];
            first_[k] += xyz[k] * place;
            second_[k] += xyz[k] * place * place;
        }
    }
    Spectrogram result() const {
        Spectrogram s;
        for (size_t k = 0; k < 3; ++k) s.place[k] = first_[k] / sum_[k];
        s.width_y = std::sqrt(second_[1] / sum_[1] - s.place[1] * s.place[1]);
        return s;
    }

  private:
    std::array<double, 3> sum_{}, first_{}, second_{};
};

Spectrogram read_film(const Film& film) {
    Moments moments;
    for (int i = 0; i < film.pixels(); ++i) {
        const Xyz c = film.resolve(i);
        moments.add(i % film.width() + 0.5, {c.x, c.y, c.z});
    }
    return moments.result();
}

}  // namespace

double index_at(double nm) {
    return refractive_index(kGlass, nm);
}

double middle_index() {
    return 0.5 * (index_at(kFirstNm) + index_at(kLastNm));
}

glm::dvec2 along(double angle) {
    return {std::cos(angle), std::sin(angle)};
}

glm::dvec2 Prism::middle_of_left() const {
    return {-0.5 * height * std::tan(0.5 * apex), 0.5 * height};
}

double Prism::symmetrical_incidence(double n) const {
    return std::asin(n * std::sin(0.5 * apex));
}

double Prism::deviation(double incidence, double n) const {
    const double s = std::sin(incidence);
    return incidence + std::asin(std::sin(apex) * std::sqrt(n * n - s * s) - s * std::cos(apex)) -
           apex;
}

Prism::Ray Prism::through(const Ray& ray, double n) const {
    const glm::dvec2 top(0, height);
    const auto meet = [&](const glm::dvec2& from, double angle, double normal) {
        const double t =
            glm::dot(top - from, along(normal)) / glm::dot(along(angle), along(normal));
        return from + t * along(angle);
    };
    const double incidence = ray.angle + 0.5 * apex;
    const double inside = std::asin(std::sin(incidence) / n);
    const double turned = deviation(incidence, n);
    const glm::dvec2 entry = meet(ray.origin, ray.angle, -0.5 * apex);
    const glm::dvec2 exit = meet(entry, inside - 0.5 * apex, 0.5 * apex);
    return {exit,
            ray.angle - turned,
            fresnel_passes(incidence, inside) *
                fresnel_passes(turned + apex - incidence, apex - inside),
            glm::length(exit - entry)};
}

Scene Prism::scene() const {
    const double half = height * std::tan(0.5 * apex);
    Scene scene = solid_scene({Vec2(-half, 0), Vec2(half, 0), Vec2(0, height)}, 0.1F);
    scene.materials[0].glass = kGlass;
    return scene;
}

double Screen::place_of(const Prism::Ray& ray) const {
    const glm::dvec2 to = ray.origin - centre;
    const double t = -glm::dot(to, along(facing)) / std::cos(ray.angle - facing);
    const glm::dvec2 right(std::sin(facing), -std::cos(facing));
    return glm::dot(to + t * along(ray.angle), right);
}

void add_screen(Scene& scene, const Screen& screen) {
    const MaterialId white = test::add_material(scene, test::lambertian("screen", 0.5F));
    const Vec3 right(std::sin(screen.facing), -std::cos(screen.facing), 0);
    const Vec3 up(0, 0, 1);
    const Point c = point_of(screen.centre);
    Mesh mesh;
    mesh.name = "screen";
    const auto corner = [&](float x, float y) { return c + 0.5F * (x * right + y * up); };
    test::add_quad(mesh, corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1), white);
    scene.room.push_back(mesh);
}

void set_camera(
    Scene& scene, const Screen& screen, double distance, double pixel, int width, int height) {
    const glm::dvec2 position = screen.centre - distance * along(screen.facing);
    scene.camera = test::camera_at(point_of(position), point_of(screen.centre), width, height);
    scene.camera.frame = looking_frame(Direction(along(screen.facing), 0.0F), Direction(0, 0, 1));
    scene.camera.focal_length =
        static_cast<float>(scene.camera.sensor.x * distance / (width * pixel));
}

void add_beam(Scene& scene, const glm::dvec2& position, double angle, double sigma) {
    Fixture f = test::fixture_of(
        FixtureForm::kSpot, point_of(position), point_of(position + along(angle)), 10);
    f.source_diameter = 0;
    f.beam_angle = static_cast<float>(2 * sigma * std::sqrt(2 * std::log(2.0)));
    f.field_angle = static_cast<float>(2 * sigma * std::sqrt(2 * std::log(10.0)));
    scene.fixtures = {f};
}

Spectrogram expect(const Curve& lamp,
                   const std::function<void(double n, const AddRay& add)>& rays) {
    Moments moments;
    const Curve absorption = absorption_curve(kGlass, Tint::kClear);
    const Observer& eye = cie_1931();
    for (int j = 0; j < Curve::kSize; ++j) {
        rays(index_at(Curve::nm(j)), [&](double place, const Prism::Ray& ray, double weight) {
            const double w = weight * lamp[j] * ray.share * std::exp(-absorption[j] * ray.length);
            moments.add(place, {w * eye.x[j], w * eye.y[j], w * eye.z[j]});
        });
    }
    return moments.result();
}

Runs render_runs(const Scene& scene,
                 double footprint_px,
                 double light_walks_per_pixel,
                 const std::vector<int>& passes,
                 int seeds) {
    const World world(scene);
    Runs runs;
    for (int seed = 1; seed <= seeds; ++seed) {
        RenderOptions options;
        options.seed = static_cast<uint64_t>(seed);
        options.passes = passes.back();
        options.max_bounces = 3;  // two faces and the screen
        options.light_walks_per_pixel = light_walks_per_pixel;
        options.footprint_px = footprint_px;
        options.on_pass = [&](const Progress& progress, const RenderResult& result) {
            for (const int n : passes) {
                if (n == progress.passes) runs[n].push_back(read_film(result.film));
            }
            return true;
        };
        render_frame(scene, world, options);
    }
    return runs;
}

Estimate mean_over(const std::vector<Spectrogram>& runs,
                   const std::function<double(const Spectrogram&)>& value) {
    const auto n = static_cast<double>(runs.size());
    double sum = 0;
    for (const Spectrogram& run : runs) sum += value(run) / n;
    double squares = 0;
    for (const Spectrogram& run : runs) squares += std::pow(value(run) - sum, 2);
    return {sum, std::sqrt(squares / (n * (n - 1)))};
}

double place_y(const Spectrogram& s) {
    return s.place[1];
}
double from_x_to_z(const Spectrogram& s) {
    return s.place[2] - s.place[0];
}
double width_y(const Spectrogram& s) {
    return s.width_y;
}

double blur(double footprint_px, int passes) {
    if (!(footprint_px > 0)) return 1.0 / 12;
    double sum = 0;
    for (int i = 0; i < passes; ++i) {
        const auto r =
            static_cast<double>(splat_radii_of_pass(footprint_px, static_cast<uint32_t>(i)).least);
        sum += r * r / 6;
    }
    return sum / passes;
}

}  // namespace dapple::published::drawn_prism
