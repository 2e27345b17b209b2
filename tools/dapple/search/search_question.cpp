#include "search/search_question.h"

#include <algorithm>
#include <cmath>

#include "load_set.h"
#include "search/search_words.h"

namespace dapple {

namespace {

constexpr int kLeastWidth = 160;       // px
constexpr int kPatternWidth = 240;     // px, at least, for fine stripes and the sides of a figure
constexpr int kMostWidth = 480;        // px
constexpr double kLongerSide = 72;     // px, of a region: its texture is then measured in few cells
constexpr double kPatchPixels = 3500;  // more than judge/pattern.cpp needs for patches

// The smallest frame in which what is wanted can be measured (tools/bench/README.md). A region
// without a rectangle is taken as a large part of the frame.
int quick_width(const Scene& scene, const std::vector<Wish>& wishes) {
    double scale = static_cast<double>(kLeastWidth) / scene.camera.width;
    for (const Region& region : scene.regions) {
        if (!region.has_rect) continue;
        const double across = std::max(1, region.rect[2] - region.rect[0]);
        const double down = std::max(1, region.rect[3] - region.rect[1]);
        for (const Wish& wish : wishes) {
            if (!wish.measure.starts_with(region.name + ".")) continue;
            scale = std::max(scale, kLongerSide / std::max(across, down));
            if (!wish.measure.ends_with(".patch_cm")) continue;
            scale = std::max(scale, std::sqrt(kPatchPixels / (across * down)));
        }
    }
    const bool is_fine = std::any_of(wishes.begin(), wishes.end(), [](const Wish& wish) {
        return wish.measure.starts_with("figure") || wish.measure.ends_with(".texture_stops") ||
               wish.measure.ends_with(".patch_cm");
    });
    const auto width = static_cast<int>(std::lround(scale * scene.camera.width));
    const int least = is_fine ? kPatternWidth : kLeastWidth;
    return std::min({scene.camera.width, kMostWidth, std::max(least, width)});
}

}  // namespace

SearchQuestion ask_search(const std::string& set_path,
                          const std::string& set_text,
                          const SearchWords& words,
                          Problems& problems) {
    SearchQuestion question;
    question.set_path = set_path;
    question.set_text = set_text;
    std::optional<Scene> scene = load_scene(set_text, set_path, 0, problems);
    if (!scene) return question;
    const auto thing = find_thing(outline_of(set_text), words.thing, problems);
    if (!thing) return question;
    question.space.address = thing->address;
    const Metres3 present = *position_of(*thing);
    if (words.within > 0) {
        PlaceBounds& place = question.space.place.emplace(PlaceBounds{present, present, false});
        for (const size_t axis : {size_t{0}, size_t{2}}) {
            place.from[axis] -= words.within;
            place.to[axis] += words.within;
        }
    }
    for (const std::string& varied : words.vary) {
        add_varied(varied, present, *scene, question.space, problems);
    }
    for (const std::string& want : words.wants) {
        const size_t size = question.set_text.size();
        const auto wish = read_want(want, *scene, question.set_text, problems);
        if (wish) question.wishes.push_back(*wish);
        if (question.set_text.size() == size) continue;
        scene = load_scene(question.set_text, set_path, 0, problems);  // with the new region
        if (!scene) return question;
    }
    if (problems.empty() && question.space.dimensions() == 0) {
        problems.add({}, "--vary", "nothing varies; give --within or --vary");
    }
    if (problems.empty() && question.wishes.empty()) {
        problems.add({}, "--want", "nothing is wanted; such as \"back wall.texture=more\"");
    }
    question.look.width = quick_width(*scene, question.wishes);
    return question;
}

}  // namespace dapple
