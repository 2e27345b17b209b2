#include "glare/add_ghosts.h"

#include <algorithm>
#include <array>

#include "base/parallel.h"
#include "develop/exposure.h"
#include "lenses/ghost_canvas.h"
#include "lenses/lens_wavelengths.h"
#include "lenses/paraxial.h"

namespace dapple {

namespace {

constexpr int kCanvasWidth = 480;    // px at most
constexpr int kSheetRays = 41;       // across the part of the front that a ghost uses
constexpr int kDispersedRays = 25;   // the same, of each of eight wavelengths
constexpr size_t kTasksAtOnce = 16;  // each with a canvas of its own
constexpr double kLeastOfWhite = 1e-4;
constexpr double kFoldedGain = 10;
constexpr size_t kMostGhosts = 6;   // told of one light
constexpr double kLeastLux = 1e-5;  // of the brightest light

struct GhostTask {
    size_t light = 0;
    std::pair<size_t, size_t> pair;
};

LampColour colour_of(const FixtureGroups& groups, const LensLight& light) {
    LampColour colour;
    const auto count = static_cast<size_t>(groups.count_of(light.fixture));
    colour.groups = std::min(count, kMostLensGroups);
    for (size_t g = 0; g < colour.groups; ++g) {
        const auto first = static_cast<size_t>(groups.first_of(light.fixture));
        colour.bands[g] = band_xyz(groups.groups[first + g].spectrum);
        for (size_t j = 0; j < kSpectrumSize; ++j) {
            colour.bands[g][j] *= static_cast<double>(light.passed[static_cast<int>(j)]);
        }
    }
    return colour;
}

class GhostPainter {
  public:
    GhostPainter(const LensAndLights& with, const PixelGrid& grid) : with_(with), grid_(grid) {}

    // On an empty canvas.
    DrawnGhost paint(const GhostTask& task, GhostCanvas& canvas) const {
        const LensLight& light = with_.lights[task.light];
        const LampColour colour = colour_of(with_.groups, light);
        canvas.clear(colour.groups);
        DrawnGhost drawn;
        const LensVec place = place_at_lens(with_.lens, light);
        const double azimuth = std::atan2(place.y, place.x);
        const LensVec turned_place(std::hypot(place.x, place.y), 0, place.z);
        const RealLens lens = with_.lens.turned(-azimuth);
        const LightRoute route = ghost_route(lens.glass(), task.pair.first, task.pair.second);
        const SheetDrawing drawing{
            lens, route, azimuth, light.lux, colour, kLeastOfWhite * white_luminance(with_.camera)};
        const bool disperses = lens.glass().is_dispersive();
        for (size_t band = 0; band < (disperses ? kSpectrumSize : 1U); ++band) {
            const int traced = disperses ? static_cast<int>(band) : kSpectrumSize / 2;
            const GhostSheet sheet = trace_sheet(lens,
                                                 with_.hood,
                                                 route,
                                                 turned_place,
                                                 traced,
                                                 disperses ? kDispersedRays : kSheetRays);
            const size_t last = disperses ? band + 1 : kSpectrumSize;
            const DrawnGhost part = draw_sheet(drawing, sheet, band, last, canvas);
            add(part, drawn);
        }
        drawn.diameter += smear(lens, route, light);
        canvas.blur(0.5 * smear(lens, route, light));
        return drawn;
    }

  private:
    // Of all wavelengths together: the brightest one's place.
    static void add(const DrawnGhost& part, DrawnGhost& sum) {
        if (part.light > 0) {
            const double all = sum.light + part.light;
            sum.middle = (sum.light * sum.middle + part.light * part.middle) / all;
            sum.diameter = (sum.light * sum.diameter + part.light * part.diameter) / all;
            sum.light = all;
        }
    }
    // The lamp's own width on the film, first order, px.
    double smear(const RealLens& lens, const LightRoute& route, const LensLight& light) const {
        const RayMatrix m = Paraxial(lens.glass(), 550).to_film(route, lens.film_z());
        return 2 * std::abs(m.b) * light.radius / grid_.pitch;
    }

    const LensAndLights& with_;
    PixelGrid grid_;
};

// What a pair of surfaces makes of light, by first order: the film's illuminance over the lens's
// for a lamp far away, at most. Glass reflects more at an angle than straight on.
class PairStrengths {
  public:
    explicit PairStrengths(const RealLens& lens) {
        const Paraxial first_order(lens.glass(), 550);
        const double front = kPi * lens.front_radius() * lens.front_radius();
        for (const auto& [i, j] : ghost_pairs(lens.glass())) {
            const RayMatrix m = first_order.to_film(ghost_route(lens.glass(), i, j), lens.film_z());
            const double reflected = most_reflected(lens, i) * most_reflected(lens, j);
            const double wide = std::max(m.a * m.a, kSmallestGhost / front);
            strengths_.push_back({{i, j}, reflected / wide});
        }
    }
    struct Pair {
        std::pair<size_t, size_t> surfaces;
        double strength = 0;
    };
    const std::vector<Pair>& all() const { return strengths_; }

  private:
    static constexpr double kSmallestGhost = 0.01;  // mm²
    static double most_reflected(const RealLens& lens, size_t surface) {
        const SurfaceReflectance& r = lens.reflectance(surface);
        return static_cast<double>(std::max(r.at(1).max(), r.at(kSteep).max()));
    }
    static constexpr double kSteep = 0.5;  // cosine

    std::vector<Pair> strengths_;
};

std::vector<GhostTask> list_tasks(const LensAndLights& with) {
    const PairStrengths pairs(with.lens);
    const double n = with.lens.working_f_number();
    const double least_lux = kLeastOfWhite * white_luminance(with.camera) * kPi / (4 * n * n);
    double most = 0;
    for (const LensLight& light : with.lights) most = std::max(most, light.lux);
    std::vector<GhostTask> tasks;
    for (size_t l = 0; l < with.lights.size(); ++l) {
        const LensLight& light = with.lights[l];
        const bool is_ahead = place_at_lens(with.lens, light).z < -1;
        const bool is_lit = with.hood.lit_share(light.angle()) > 0;
        if (!is_ahead || !is_lit || light.lux < kLeastLux * most) continue;
        for (const auto& pair : pairs.all()) {
            // Where light folds, a ghost is brighter than first order has it.
            const bool is_dim = kFoldedGain * light.lux * pair.strength < least_lux;
            if (!is_dim) tasks.push_back({l, pair.surfaces});
        }
    }
    return tasks;
}

// On the picture's pixels.
void add_canvas(const GhostCanvas& canvas, const Camera& camera, size_t group, XyzPlane& layer) {
    const double step = canvas.pixels.pitch / pixel_grid(camera, 1).pitch;
    parallel_blocks(camera.height, 16, [&](int64_t first, int64_t last) {
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < camera.width; ++x) {
                layer[static_cast<size_t>(y * camera.width + x)] +=
                    between_pixels(canvas.pixels, step, x, y, [&](int i, int j) {
                        const auto at = static_cast<size_t>(j * canvas.pixels.width + i);
                        return Xyz(canvas.values[at][group]);
                    });
            }
        }
    });
}

Ghost told(const GhostTask& task, const DrawnGhost& drawn) {
    Ghost ghost;
    ghost.first = static_cast<int>(task.pair.first) + 1;
    ghost.second = static_cast<int>(task.pair.second) + 1;
    ghost.at = drawn.middle;
    ghost.diameter = std::max(1.0, drawn.diameter);
    ghost.luminance = drawn.light / (0.25 * kPi * ghost.diameter * ghost.diameter);
    return ghost;
}

}  // namespace

LensVec place_at_lens(const RealLens& lens, const LensLight& light) {
    return {1e3 * static_cast<double>(light.place.x),
            1e3 * static_cast<double>(light.place.y),
            lens.entrance_depth() - 1e3 * static_cast<double>(light.place.z)};
}

DrawnGhosts draw_ghosts(const LensAndLights& with) {
    const Camera& camera = with.camera;
    DrawnGhosts all;
    all.grid = pixel_grid(camera, coarse_step(camera, kCanvasWidth));
    all.by_light.resize(with.lights.size());
    const GhostPainter painter(with, all.grid);
    const std::vector<GhostTask> tasks = list_tasks(with);
    std::vector<GhostCanvas> canvases(kTasksAtOnce, GhostCanvas(all.grid, 1));
    for (size_t begin = 0; begin < tasks.size(); begin += kTasksAtOnce) {
        const size_t count = std::min(kTasksAtOnce, tasks.size() - begin);
        std::array<DrawnGhost, kTasksAtOnce> drawn;
        parallel_blocks(static_cast<int64_t>(count), 1, [&](int64_t first, int64_t) {
            const auto k = static_cast<size_t>(first);
            drawn[k] = painter.paint(tasks[begin + k], canvases[k]);
        });
        for (size_t k = 0; k < count; ++k) {  // in order, so that the bits are the same
            if (!(drawn[k].light > 0)) continue;
            const GhostTask& task = tasks[begin + k];
            const auto place = all.by_fixture.try_emplace(
                with.lights[task.light].fixture, all.grid, canvases[k].groups);
            place.first->second.add(canvases[k]);
            all.by_light[task.light].push_back(told(task, drawn[k]));
        }
    }
    for (std::vector<Ghost>& list : all.by_light) {
        std::stable_sort(list.begin(), list.end(), [](const Ghost& a, const Ghost& b) {
            return a.luminance > b.luminance;
        });
        if (list.size() > kMostGhosts) list.resize(kMostGhosts);
    }
    return all;
}

void add_ghosts(const DrawnGhosts& ghosts,
                const FixtureGroups& groups,
                const Camera& camera,
                GlareLayers which,
                std::vector<XyzPlane>& layers) {
    for (const auto& [fixture, canvas] : ghosts.by_fixture) {
        const auto first = static_cast<size_t>(groups.first_of(fixture));
        for (size_t g = 0; g < canvas.groups; ++g) {
            add_canvas(canvas, camera, g, layers[layer_of(which, first + g)]);
        }
    }
}

}  // namespace dapple
