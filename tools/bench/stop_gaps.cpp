#include "stop_gaps.h"

#include <algorithm>
#include <ctime>
#include <map>
#include <mutex>
#include <thread>

#include "base/kept_parts.h"
#include "base/parallel.h"
#include "clean/clean_film.h"
#include "clean/finer_frame.h"
#include "develop/develop.h"
#include "develop/exposure.h"
#include "develop/film_record.h"
#include "load_set.h"
#include "output/safe_file.h"
#include "output/write_png.h"
#include "render/in_frame/find_in_frame.h"
#include "render/render_frame.h"
#include "scene/camera_and_measures/scale_frame.h"
#include "set/toml_text.h"

namespace dapple {

namespace {

constexpr int kLightPart = 5;  // a quick frame is so many times as wide as its light
constexpr int kPasses = 2;

double thread_seconds() {
    timespec t{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

class GapWatch {
  public:
    // Does the work of one step. Its end counts as a look of this thread: before each step the
    // desk's thread looks itself or starts a loop.
    template <class Work>
    auto watch(const std::string& step, const Work& work) {
        {
            const std::lock_guard lock(mutex_);
            gaps_.push_back({step, 0, 0, 0});
            last_.clear();
            last_[std::this_thread::get_id()] = thread_seconds();
        }
        const std::clock_t begin = std::clock();
        const StopLoops stops([this] { return look(); });
        auto result = work();
        look();
        gaps_.back().all_s = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
        return result;
    }
    std::vector<StopGap> gaps() const { return gaps_; }

  private:
    bool look() {
        const double now = thread_seconds();
        const std::lock_guard lock(mutex_);
        const auto found = last_.find(std::this_thread::get_id());
        if (found != last_.end()) {
            gaps_.back().longest_s = std::max(gaps_.back().longest_s, now - found->second);
        }
        last_[std::this_thread::get_id()] = now;
        ++gaps_.back().looks;
        return false;
    }

    std::mutex mutex_;
    std::map<std::thread::id, double> last_;
    std::vector<StopGap> gaps_;
};

// A frame whose light is coarse, as at first at rest.
void watch_quick_frame(const LoadedSet& set, int width, const std::string& name, GapWatch& gaps) {
    Scene scene = set.scene;
    scale_frame(scene, width / kLightPart);
    RenderOptions options;
    options.passes = 1;
    options.reads_meters = false;
    options.finer = kLightPart;
    const RenderResult result =
        gaps.watch(name + ": light", [&] { return render_frame(scene, set.world, options); });
    const CleanFrame finer = gaps.watch(name + ": clean and finer", [&] {
        const CoarseLight light =
            clean_coarse_light(result.film, result.seen, white_luminance(scene.camera));
        return make_finer(light, result.seen, result.fine);
    });
    gaps.watch(name + ": develop and PNG", [&] {
        return png_bytes(develop_display(develop_linear(finer, scene.camera)), PngPacking::kNone);
    });
}

void watch_frame(const LoadedSet& set, GapWatch& gaps) {
    const Scene& scene = set.scene;
    RenderOptions options;
    options.passes = 1;
    gaps.watch("frame: first pass", [&] { return render_frame(scene, set.world, options); });
    options.passes = kPasses;
    const RenderResult result =
        gaps.watch("frame: two passes", [&] { return render_frame(scene, set.world, options); });
    const CleanFrame clean = gaps.watch("frame: clean", [&] {
        return clean_film(result.film, result.seen, white_luminance(scene.camera), true);
    });
    gaps.watch("frame: develop and PNG", [&] {
        return png_bytes(develop_display(develop_linear(clean, scene.camera)), PngPacking::kUsual);
    });
    gaps.watch("frame: things in it", [&] { return find_in_frame(scene, set.world); });
    gaps.watch("frame: film record", [&] {
        return make_film_record({.scene = scene,
                                 .film = result.film,
                                 .first_hits = result.first_hits,
                                 .meters = &result.meters,
                                 .seen = &result.seen,
                                 .clean = &clean});
    });
    gaps.watch("frame: doubts", [&] { return doubts_about(set); });
}

}  // namespace

std::vector<StopGap> find_stop_gaps(const std::string& path, int width) {
    const KeepParts keep(size_t{256} << 20U);
    const ThreadLimit one(1);  // another thread would wait for this one, and that would count
    const std::string text = read_toml_text(path);
    GapWatch gaps;
    Problems problems;
    std::optional<LoadedSet> changing;
    if (!follow_set_text(text, path, changing, problems)) throw FileError(path, "has mistakes");
    gaps.watch("follow the text",
               [&] { return follow_set_text(text + "\n", path, changing, problems); });
    watch_quick_frame(*changing, width, "first quick frame", gaps);
    watch_quick_frame(*changing, width, "quick frame", gaps);
    const std::optional<LoadedSet> set = gaps.watch(
        "read and build anew", [&] { return load_set_text(text, path, width, problems); });
    watch_frame(*set, gaps);
    return gaps.gaps();
}

}  // namespace dapple
