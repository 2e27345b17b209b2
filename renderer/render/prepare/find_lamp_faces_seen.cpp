#include "render/prepare/find_lamp_faces_seen.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr int kPointsAcross = 33;    // of a face
constexpr double kMostReachPx = 64;  // a wider blur is no longer seen as a face

// Two axes that span the face from its centre, m. A ball is spanned by a disc that faces the lens.
struct FaceAxes {
    Vec3 s{0}, t{0};
};

FaceAxes axes_of(const Fixture& fixture, const Lens& lens) {
    const bool is_panel = fixture.form == FixtureForm::kPanel;
    const Vec2 half = is_panel ? 0.5F * fixture.panel_size : Vec2(0.5F * fixture.source_diameter);
    const Vec3 to_lens = lens.position() - fixture.position;
    const bool is_ball = fixture.form == FixtureForm::kBare && glm::length(to_lens) > 0;
    const Frame frame = is_ball ? looking_frame(glm::normalize(to_lens)) : fixture_frame(fixture);
    return {half.x * frame.s, half.y * frame.t};
}

class LampMask {
  public:
    LampMask(const Camera& camera)
        : camera_(camera),
          lamps_(static_cast<size_t>(camera.width) * static_cast<size_t>(camera.height), -1) {}

    void mark_disc(const Vec2& raster, double radius, int32_t lamp) {
        const int reach = static_cast<int>(std::ceil(radius));
        const int cx = static_cast<int>(raster.x);
        const int cy = static_cast<int>(raster.y);
        for (int y = std::max(0, cy - reach); y <= std::min(camera_.height - 1, cy + reach); ++y) {
            for (int x = std::max(0, cx - reach); x <= std::min(camera_.width - 1, cx + reach);
                 ++x) {
                const double dx = x + 0.5 - static_cast<double>(raster.x);
                const double dy = y + 0.5 - static_cast<double>(raster.y);
                if (std::hypot(dx, dy) > radius + 0.5) continue;
                lamps_[static_cast<size_t>(y * camera_.width + x)] = lamp;
            }
        }
    }
    std::vector<int32_t> take() { return std::move(lamps_); }

  private:
    const Camera& camera_;
    std::vector<int32_t> lamps_;
};

// Whether the lamp's face is the first thing on the way from the lens to the point.
bool is_seen(const World& world, const Lens& lens, const Point& point, int32_t lamp) {
    const Vec3 way = point - lens.position();
    const float distance = glm::length(way);
    if (!(distance > 0)) return false;
    Ray ray;
    ray.origin = lens.position();
    ray.direction = way / distance;
    Hit hit;
    return world.closest(ray, hit) && world.surface_at(ray, hit).lamp == lamp;
}

void mark_face(
    const Scene& scene, const World& world, const Lens& lens, int32_t lamp, LampMask& mask) {
    const Fixture& fixture = scene.fixtures[static_cast<size_t>(lamp)];
    const FaceAxes axes = axes_of(fixture, lens);
    const Camera& camera = scene.camera;
    const double px = static_cast<double>(camera.sensor.x) / camera.width;
    for (int i = 0; i < kPointsAcross * kPointsAcross; ++i) {
        const float a = 2 * (static_cast<float>(i % kPointsAcross) + 0.5F) / kPointsAcross - 1;
        const float b = 2 * (static_cast<float>(i / kPointsAcross) + 0.5F) / kPointsAcross - 1;
        if (fixture.form != FixtureForm::kPanel && a * a + b * b > 1) continue;
        const Point point = fixture.position + a * axes.s + b * axes.t;
        Lens::Projection at;
        if (!lens.project(point, 0.5F, 0.5F, at) || !is_seen(world, lens, point, lamp)) continue;
        const float depth = glm::dot(point - lens.position(), lens.frame().n);
        const double step = 2.0 / kPointsAcross *
                            static_cast<double>(std::max(glm::length(axes.s), glm::length(axes.t)) /
                                                lens.pixel_width_at(depth));
        const double blur = 0.5 * blur_diameter(camera, static_cast<double>(depth)) / px;
        mask.mark_disc(at.raster, std::min(kMostReachPx, std::max(1 + blur, step)), lamp);
    }
}

}  // namespace

double blur_diameter(const Camera& camera, double depth) {
    const auto focus = static_cast<double>(camera.focus_distance);
    const auto f = static_cast<double>(camera.focal_length);
    if (!(focus > f) || !(depth > 0)) return 0;
    const double aperture = f / static_cast<double>(camera.f_number);
    return aperture * f * std::abs(depth - focus) / (depth * (focus - f));
}

std::vector<int32_t> find_lamp_faces_seen(const Scene& scene,
                                          const World& world,
                                          const Lens& lens) {
    LampMask mask(scene.camera);
    for (size_t f = 0; f < scene.fixtures.size(); ++f) {
        if (scene.fixtures[f].is_window) continue;
        mark_face(scene, world, lens, static_cast<int32_t>(f), mask);
    }
    return mask.take();
}

}  // namespace dapple
