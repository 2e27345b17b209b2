#include "search/rate_place.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "count_lit_through.h"
#include "develop/exposure.h"
#include "judge/judge_film.h"
#include "night/night_measures.h"
#include "output/write_stats.h"
#include "plausible/bodies/find_cuts.h"
#include "plausible/bodies/movers.h"
#include "plausible/room/find_outside.h"
#include "render/render_frame.h"
#include "render_files.h"
#include "variants/score_variants.h"

namespace dapple {

namespace {

constexpr int kLookParts = 12;         // of a region, along its longer side
constexpr double kStopsWithin = 0.05;  // s

// The pixels that the light is compared in: those of the regions that are wished for, or all.
std::vector<int32_t> pixels_looked_at(const SearchQuestion& question, const FilmRecord& film) {
    std::vector<int32_t> pixels;
    for (const RegionRecord& region : film.regions) {
        const bool is_wished =
            std::any_of(question.wishes.begin(), question.wishes.end(), [&](const Wish& wish) {
                return wish.measure.starts_with(region.region.name + ".");
            });
        if (is_wished) pixels.insert(pixels.end(), region.pixels.begin(), region.pixels.end());
    }
    if (!pixels.empty()) return pixels;
    for (int32_t i = 0; i < film.pixels(); ++i) pixels.push_back(i);
    return pixels;
}

struct PixelBox {
    int x0, y0, x1, y1;
};
PixelBox box_around(const std::vector<int32_t>& pixels, int width) {
    PixelBox box{width, pixels.front() / width, 0, 0};
    for (const int32_t i : pixels) {
        box.x0 = std::min(box.x0, i % width);
        box.x1 = std::max(box.x1, i % width + 1);
        box.y0 = std::min(box.y0, i / width);
        box.y1 = std::max(box.y1, i / width + 1);
    }
    return box;
}

// The brightness of square parts of the region, in stops over the floor of 12 stops under white.
// All places have the same parts, because the region does not move.
std::vector<float> look_of(const SearchQuestion& question, const FilmRecord& film) {
    const std::vector<int32_t> pixels = pixels_looked_at(question, film);
    const PixelBox box = box_around(pixels, film.width());
    const int side =
        std::max(1, (std::max(box.x1 - box.x0, box.y1 - box.y0) + kLookParts - 1) / kLookParts);
    const int across = (box.x1 - box.x0 + side - 1) / side;
    const int down = (box.y1 - box.y0 + side - 1) / side;
    std::vector<double> sums(static_cast<size_t>(across) * static_cast<size_t>(down), 0.0);
    std::vector<int> counts(sums.size(), 0);
    for (const int32_t i : pixels) {
        const int x = (i % film.width() - box.x0) / side;
        const int y = (i / film.width() - box.y0) / side;
        const auto part = static_cast<size_t>(y * across + x);
        sums[part] += static_cast<double>(film.luminance[static_cast<size_t>(i)]);
        ++counts[part];
    }
    const double floor = white_luminance(film.camera) / 4096;
    std::vector<float> look;
    for (size_t p = 0; p < sums.size(); ++p) {
        const double mean = counts[p] > 0 ? sums[p] / counts[p] : 0;
        look.push_back(static_cast<float>(std::log2(std::max(mean, floor) / floor)));
    }
    return look;
}

std::string first_about(const Doubts& doubts, const std::string& thing) {
    for (const Doubt& doubt : doubts) {
        const std::string text = to_string(doubt);
        if (text.find(thing) != std::string::npos) return text;
    }
    return "";
}

// The first doubt about where the thing stands; "" if there is none.
std::string doubt_about(const LoadedSet& set, const std::string& thing) {
    const StagedSet staged{set.written, set.scene, set.world};
    const std::vector<Mover> movers = find_movers(staged);
    const std::string outside = first_about(find_outside(staged, movers), thing);
    return outside.empty() ? first_about(find_cuts(staged, movers), thing) : outside;
}

// As messages write it: `glass "jar"`.
std::string quoted_thing(const std::string& kind, const std::string& name) {
    return kind + " \"" + name + "\"";
}

}  // namespace

PlaceRater::PlaceRater(const SearchQuestion& question, Problems& problems) : question_(question) {
    const std::string& address = question.space.address;
    kind_ = address.substr(0, address.find('.'));
    name_ = address.substr(kind_.size() + 1);
    const std::optional<LoadedSet> set =
        load_set_text(question.set_text, question.set_path, question.look.width, problems);
    if (!set) return;
    looks_for_cuts_ = doubt_about(*set, quoted_thing(kind_, name_)).empty();
}

std::string PlaceRater::unusable(const LoadedSet& set) const {
    return looks_for_cuts_ ? doubt_about(set, quoted_thing(kind_, name_)) : "";
}

PlaceRating PlaceRater::measure(const LoadedSet& set, const RenderResult& result) const {
    FilmRecord film = make_film_record({.scene = set.scene,
                                        .film = result.film,
                                        .first_hits = result.first_hits,
                                        .meters = &result.meters,
                                        .seen = &result.seen});
    count_lit_through(set, question_.space.address, result.seen, film);
    const nlohmann::json stats = nlohmann::json::parse(stats_json_text(judge_film(film), film));
    PlaceRating rating;
    for (const Wish& wish : question_.wishes) {
        rating.measures.push_back(measure_in(stats, wish.measure, wish.place));
    }
    rating.score = score_of(question_.wishes, rating.measures);
    rating.look = look_of(question_, film);
    return rating;
}

PlaceRating PlaceRater::rate(const std::vector<SetChange>& changes,
                             const LookListeners& listeners) const {
    PlaceRating rating;
    Problems problems;
    const std::string text = change_set(question_.set_text, changes, problems);
    std::optional<LoadedSet> set;
    if (problems.empty()) {
        set = load_set_text(text, question_.set_path, question_.look.width, problems);
    }
    rating.unusable = set ? unusable(*set) : to_string(problems.all().front());
    if (!rating.unusable.empty()) return rating;
    const QuickLook& look = question_.look;
    const bool may_go_on = listeners.looks_good && look.more_passes > look.passes;
    RenderOptions options;
    options.passes = may_go_on ? look.more_passes : look.passes;
    options.seed = look.seed;
    options.threads = look.threads;
    options.footprint_px = look.footprint_px;
    options.light_walks_per_pixel = look.light_walks_per_pixel;
    options.part_every_s = kStopsWithin;
    options.on_part = [&](const WorkPart&) { return listeners.goes_on(); };
    bool is_enough = false;
    options.on_pass = [&](const Progress& progress, const RenderResult& so_far) {
        if (progress.passes != look.passes || !may_go_on) return true;
        is_enough = !listeners.looks_good(measure(*set, so_far));
        return !is_enough;
    };
    const RenderResult result = render_frame(set->scene, set->world, options);
    if (result.stopped_early && !is_enough) throw StoppedWork();
    rating = measure(*set, result);
    if (listeners.wants_picture && listeners.wants_picture(rating)) {
        const CleanFrame clean = clean_frame_of(result, set->scene);
        rating.picture = develop_display(develop_linear(clean, set->scene.camera));
    }
    return rating;
}

}  // namespace dapple
