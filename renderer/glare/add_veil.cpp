#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "develop/exposure.h"
#include "glare/add_spread.h"
#include "lenses/lens_wavelengths.h"
#include "lenses/veil.h"

namespace dapple {

namespace {

constexpr int kVeilWidth = 480;  // px at most
constexpr double kUsualEdge =
    8;  // a pixel of the edge counts for this many times its median at most

// The mean light along the picture's edge, without its lamps: what is beyond is taken to be like
// it.
Xyz edge_light(const XyzPlane& plane, const PixelGrid& grid) {
    std::vector<Xyz> edge;
    for (int x = 0; x < grid.width; ++x) {
        edge.push_back(plane[static_cast<size_t>(x)]);
        edge.push_back(plane[static_cast<size_t>((grid.height - 1) * grid.width + x)]);
    }
    for (int y = 0; y < grid.height; ++y) {
        edge.push_back(plane[static_cast<size_t>(y * grid.width)]);
        edge.push_back(plane[static_cast<size_t>((y + 1) * grid.width - 1)]);
    }
    const auto middle = edge.begin() + static_cast<std::ptrdiff_t>(edge.size() / 2);
    std::nth_element(
        edge.begin(), middle, edge.end(), [](const Xyz& a, const Xyz& b) { return a.y < b.y; });
    const double limit = kUsualEdge * middle->y;
    Xyz sum(0);
    int count = 0;
    for (const Xyz& light : edge) {
        if (light.y > limit) continue;
        sum += light;
        ++count;
    }
    return count > 0 ? sum / static_cast<double>(count) : Xyz(0);
}

class VeilPainter {
  public:
    VeilPainter(const Camera& camera, int step)
        : camera_(camera),
          step_(step),
          fine_(pixel_grid(camera, 1)),
          grid_(pixel_grid(camera, step)),
          veil_(1e3 * static_cast<double>(glm::length(camera.sensor))),
          fourier_(quick_size(2 * grid_.width), quick_size(2 * grid_.height)),
          kernel_(fourier_.forward(kernel_plane())) {}

    // The scattered light of one layer, without what is scattered away.
    XyzPlane spread(const XyzPlane& film) const {
        const XyzPlane coarse = coarsened(film, fine_, step_);
        const Xyz beyond = edge_light(coarse, grid_);
        XyzPlane result(coarse.size(), beyond);
        for (int c = 0; c < 3; ++c) {
            RealPlane plane = fourier_.make_plane();
            for (int y = 0; y < grid_.height; ++y) {
                for (int x = 0; x < grid_.width; ++x) {
                    const double value =
                        coarse[static_cast<size_t>(y * grid_.width + x)][c] - beyond[c];
                    plane[static_cast<size_t>(y * fourier_.width() + x)] =
                        static_cast<float>(value);
                }
            }
            FourierPlane light = fourier_.forward(plane);
            for (size_t i = 0; i < light.size(); ++i) light[i] *= kernel_[i];
            const RealPlane wide = fourier_.inverse(light);
            for (int y = 0; y < grid_.height; ++y) {
                for (int x = 0; x < grid_.width; ++x) {
                    result[static_cast<size_t>(y * grid_.width + x)][c] +=
                        static_cast<double>(wide[static_cast<size_t>(y * fourier_.width() + x)]);
                }
            }
        }
        return result;
    }

    // The same of a lamp of this colour (XYZ per lux) that is not in the film.
    void add_lamp(const LensLight& light, double lit, const Xyz& xyz, XyzPlane& coarse) const {
        const double focal = image_distance_mm(camera_);
        const auto z = static_cast<double>(light.place.z);
        const DVec2 at(
            0.5 * grid_.width + focal * static_cast<double>(light.place.x) / z / grid_.pitch,
            0.5 * grid_.height - focal * static_cast<double>(light.place.y) / z / grid_.pitch);
        // L times the area of its image, cd/m² mm², with the light that enters: cosθ.
        const double strength = light.lux * focal * focal * std::cos(light.angle()) * lit;
        for (int y = 0; y < grid_.height; ++y) {
            for (int x = 0; x < grid_.width; ++x) {
                const DVec2 away = grid_.pitch * (DVec2(x + 0.5, y + 0.5) - at);
                const double density = veil_.cell_density(away.x, away.y, grid_.pitch);
                coarse[static_cast<size_t>(y * grid_.width + x)] += strength * density * xyz;
            }
        }
    }

    void add(const XyzPlane& coarse,
             const XyzPlane& film,
             double scattered,
             XyzPlane& layer) const {
        for (int y = 0; y < fine_.height; ++y) {
            for (int x = 0; x < fine_.width; ++x) {
                const auto i = static_cast<size_t>(y * fine_.width + x);
                const Xyz wide = between_pixels(grid_, step_, x, y, [&](int u, int v) {
                    return coarse[static_cast<size_t>(v * grid_.width + u)];
                });
                layer[i] += scattered * (wide - film[i]);
            }
        }
    }
    const Veil& veil() const { return veil_; }

  private:
    RealPlane kernel_plane() const {
        RealPlane plane = fourier_.make_plane();
        const double area = grid_.pitch * grid_.pitch;
        const int w = fourier_.width();
        const int h = fourier_.height();
        for (int y = 0; y < h; ++y) {
            for (int x = 0; x < w; ++x) {
                const int dx = x < w / 2 ? x : x - w;
                const int dy = y < h / 2 ? y : y - h;
                plane[static_cast<size_t>(y * w + x)] = static_cast<float>(
                    area * veil_.cell_density(grid_.pitch * dx, grid_.pitch * dy, grid_.pitch));
            }
        }
        return plane;
    }

    const Camera& camera_;
    int step_;
    PixelGrid fine_, grid_;
    Veil veil_;
    PlaneFourier fourier_;
    FourierPlane kernel_;
};

}  // namespace

std::optional<DVec2> place_in_picture(const Camera& camera, const LensLight& light) {
    if (!(light.place.z > 0)) return std::nullopt;
    const auto distance = static_cast<float>(1e-3 * image_distance_mm(camera));
    const Vec2 at =
        distance / light.place.z * Vec2(light.place.x, -light.place.y) / camera.sensor + Vec2(0.5F);
    if (at.x < 0 || at.y < 0 || at.x > 1 || at.y > 1) return std::nullopt;
    return DVec2(at) * DVec2(camera.width, camera.height);
}

void add_veil(const Camera& camera,
              const VeilLights& with,
              std::vector<XyzPlane> film,
              std::vector<XyzPlane>& layers) {
    if (!(with.scattered > 0)) return;
    const VeilPainter painter(camera, coarse_step(camera, kVeilWidth));
    const double of_lamps = with.of_lamps / with.scattered;
    const std::vector<char> is_lamp = find_bright(film, kBrightOfWhite * white_luminance(camera));
    parallel_blocks(static_cast<int64_t>(film.size()), 1, [&](int64_t first, int64_t) {
        const auto g = static_cast<size_t>(first);
        XyzPlane& light = film[g];
        for (size_t i = 0; i < light.size(); ++i) {
            if (is_lamp[i]) light[i] *= of_lamps;
        }
        XyzPlane coarse = painter.spread(light);
        if (g < with.lamps.size()) {
            for (const VeilLamp& lamp : with.lamps[g]) {
                painter.add_lamp(*lamp.light, lamp.lit, of_lamps * lamp.per_lux, coarse);
            }
        }
        painter.add(coarse, light, with.scattered, layers[g]);
    });
}

}  // namespace dapple
