#include "frame_steps.h"

#include <algorithm>
#include <ctime>
#include <functional>
#include <iostream>
#include <map>

#include "base/kept_parts.h"
#include "clean/clean_film.h"
#include "clean/finer_frame.h"
#include "develop/develop.h"
#include "develop/film_record.h"
#include "load_set.h"
#include "output/write_png.h"
#include "render/prepare/find_asked_lamps.h"
#include "render/prepare/find_connections.h"
#include "render/prepare/find_lamp_faces_seen.h"
#include "render/prepare/find_merge_cells.h"
#include "render/prepare/frame_setup.h"
#include "render/render_frame.h"
#include "scene/build_scene.h"
#include "scene/camera_and_measures/scale_frame.h"
#include "set/toml_text.h"

namespace dapple {

namespace {

constexpr int kFiner = 5;

class StepClock {
  public:
    template <class Work>
    auto time(const std::string& step, const Work& work) {
        const Clock clock;
        const std::clock_t cpu = std::clock();
        auto result = work();
        add(step, clock.seconds(), static_cast<double>(std::clock() - cpu) / CLOCKS_PER_SEC);
        return result;
    }
    std::vector<StepTime> medians() const {
        std::vector<StepTime> result;
        for (const std::string& step : order_) {
            result.push_back({step, median(wall_.at(step)), median(cpu_.at(step))});
        }
        return result;
    }

  private:
    void add(const std::string& step, double wall, double cpu) {
        if (wall_.find(step) == wall_.end()) order_.push_back(step);
        wall_[step].push_back(wall);
        cpu_[step].push_back(cpu);
    }
    static double median(std::vector<double> values) {
        std::sort(values.begin(), values.end());
        return values[values.size() / 2];
    }

    std::vector<std::string> order_;
    std::map<std::string, std::vector<double>> wall_, cpu_;
};

// The steps of FrameSetup one by one.
void time_preparing(const LoadedSet& set, StepClock& clock) {
    WorkWatch watch;
    const RenderOptions options;
    const FrameSetup frame(set.scene, set.world, options, watch);
    const Setup& setup = frame.setup;
    clock.time("  aims", [&] { return std::make_unique<Setup>(set.scene, set.world, true); });
    clock.time("  walk budget", [&] { return light_walks_of_pass(setup, 1e4, 0.05); });
    clock.time("  first hits",
               [&] { return find_first_hits(set.scene, set.world, setup.lens, watch); });
    clock.time("  lamp faces",
               [&] { return find_lamp_faces_seen(set.scene, set.world, setup.lens); });
    clock.time("  seen points", [&] { return find_seen_points(setup, frame.first_hits, watch); });
    clock.time("  seen points of a picture 5 times as wide",
               [&] { return find_fine_points(setup, kFiner, {}, watch); });
    clock.time("  asked lamps", [&] { return find_asked_lamps(setup); });
    const LightPilot pilot =
        clock.time("  light pilot", [&] { return trace_light_pilot(setup, frame.light_walks); });
    const double pixels = static_cast<double>(set.scene.camera.width) * set.scene.camera.height;
    clock.time("  connections", [&] { return find_connections(setup, pilot, pixels); });
    clock.time("  merge cells", [&] {
        return find_merge_cells(setup, frame.first_hits, pilot, frame.first_merge_radius);
    });
}

// The desk's quick frame after the scene has changed.
void time_quick_frame(const LoadedSet& set, const RenderOptions& options, StepClock& clock) {
    const RenderResult result = clock.time("quick frame, 5 times as wide as its light", [&] {
        return render_frame(set.scene, set.world, options);
    });
    const CoarseLight light = clock.time("  clean", [&] {
        return clean_coarse_light(result.film, result.seen, white_of(set.scene.camera));
    });
    const CleanFrame finer =
        clock.time("  finer", [&] { return make_finer(light, result.seen, result.fine); });
    const Picture picture = clock.time(
        "  develop", [&] { return develop_display(develop_linear(finer, set.scene.camera)); });
    clock.time("  PNG", [&] { return png_bytes(picture, PngPacking::kNone); });
}

void time_once(const std::string& path, const std::string& text, int width, StepClock& clock) {
    Problems problems;
    auto set = clock.time("read, check and build all",
                          [&] { return load_set_text(text, path, width, problems); });
    if (!set) throw FileError(path, "has mistakes");
    clock.time("  scene", [&] { return load_scene(text, path, width, problems); });
    clock.time("  what rays meet", [&] { return World(set->scene); });
    World changing(set->scene, WorldUse::kChanging);
    Scene moved = set->scene;
    for (GlassObject& glass : moved.glasses) {
        glass.position.x += 0.01F;
        break;
    }
    clock.time("  the same, a glass moved", [&] { return changing.change_to(moved); });
    time_preparing(*set, clock);
    RenderOptions options;
    options.passes = 1;
    const RenderResult result = clock.time(
        "frame of one pass", [&] { return render_frame(set->scene, set->world, options); });
    options.pilots = result.pilots;
    options.reads_meters = false;
    clock.time("  with kept pilots", [&] { return render_frame(set->scene, set->world, options); });
    options.finer = kFiner;
    time_quick_frame(*set, options, clock);
    const double white = white_of(set->scene.camera);
    const CleanFrame clean = clock.time(
        "clean, with layers", [&] { return clean_film(result.film, result.seen, white, true); });
    clock.time("  without layers", [&] { return clean_film(result.film, result.seen, white); });
    const Picture picture = clock.time(
        "develop", [&] { return develop_display(develop_linear(clean, set->scene.camera)); });
    clock.time("PNG", [&] { return png_bytes(picture); });
    clock.time("film record", [&] {
        return make_film_record({.scene = set->scene,
                                 .film = result.film,
                                 .first_hits = result.first_hits,
                                 .clean = &clean});
    });
}

}  // namespace

std::vector<StepTime> time_frame_steps(const std::string& set, int width, int repeats) {
    const KeepParts keep(size_t{256} << 20U);
    const std::string text = read_toml_text(set);
    StepClock clock;
    for (int i = 0; i < repeats; ++i) time_once(set, text, width, clock);
    return clock.medians();
}

}  // namespace dapple
