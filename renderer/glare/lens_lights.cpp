#include "glare/lens_lights.h"

#include "base/parallel.h"
#include "glare/image_search.h"

namespace dapple {

namespace {

constexpr float kPartAngle = 0.03F;  // rad, a larger lamp is taken in parts
constexpr int kMostParts = 4;        // across

// The parts of one lamp that are seen straight.
void add_direct(const Setup& setup,
                const SmoothWays& ways,
                int fixture,
                std::vector<LensLight>& lights) {
    const Emitter& lamp = setup.emitters[static_cast<size_t>(fixture)];
    const Point& lens = setup.lens.position();
    const float distance = glm::length(lamp.position() - lens);
    const float wide = lamp.is_point() ? 0.0F : 2 * lamp.radius() / std::max(distance, 1e-3F);
    const int n = std::clamp(static_cast<int>(std::ceil(wide / kPartAngle)), 1, kMostParts);
    for (int k = 0; k < n * n; ++k) {
        const float u = (static_cast<float>(k % n) + 0.5F) / static_cast<float>(n);
        const float v = (static_cast<float>(k / n) + 0.5F) / static_cast<float>(n);
        LampLight light;
        if (!lamp.sample_towards(lens, u, v, light)) continue;
        const Vec3 way = light.position - lens;
        const double d2 = static_cast<double>(glm::dot(way, way));
        LensLight found;
        found.fixture = fixture;
        found.place = setup.lens.frame().to_local(way);
        found.lux = static_cast<double>(light.luminance * light.cos_lamp / light.pdf_towards) /
                    (d2 * n * n);
        found.radius = 0.5 * static_cast<double>(wide) / n;
        found.in_film = !lamp.is_point();
        if (!(found.place.z > 0) || !(found.lux > 0)) continue;
        found.passed = ways.passed_straight(lens, light.position);
        if (found.passed.max() > 0) lights.push_back(found);
    }
}

}  // namespace

std::vector<LensLight> find_lens_lights(const Setup& setup) {
    const SmoothWays ways(setup);
    std::vector<LensLight> lights;
    for (size_t f = 0; f < setup.emitters.size(); ++f) {
        add_direct(setup, ways, static_cast<int>(f), lights);
    }
    if (ways.any_smooth()) find_images(setup, ways, lights);
    return lights;
}

}  // namespace dapple
