#include "night/check_wishes.h"

#include <algorithm>

#include "night/night_measures.h"

namespace dapple {

namespace {

using Words = std::vector<std::string>;

// A part of the set with what is measured of it.
struct MeasuredPart {
    std::string name;
    std::string kind;  // "a region"
    Words measures;
};

std::vector<MeasuredPart> measured_parts(const Scene& scene) {
    std::vector<MeasuredPart> parts = {{"frame", "the frame", measures_of_frame()}};
    for (const Region& region : scene.regions) {
        parts.push_back({region.name, "a region", measures_of_regions()});
    }
    for (const Meter& meter : scene.meters) {
        parts.push_back({meter.name, "a meter", measures_of_meters()});
    }
    parts.push_back({"meters", "the meters", measures_of_ratios()});
    parts.push_back({"figure", "the figure", measures_of_ratios()});
    for (const std::string& side : sides_of_figure()) {
        parts.push_back({side, "a side of the figure", measures_of_regions()});
    }
    return parts;
}

std::string suggested(const std::string& word, const Words& words) {
    const std::string nearest = nearest_word(word, words);
    return nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?";
}

std::string listed(const Words& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
    return text;
}

// What is wrong with a wish; "" if nothing is.
std::string problem_of(const std::string& measure, const std::vector<MeasuredPart>& parts) {
    const size_t dot = measure.rfind('.');
    const std::string name = measure.substr(0, dot);
    const std::string key = dot == std::string::npos ? "" : measure.substr(dot + 1);
    Words names;
    const MeasuredPart* named = nullptr;
    for (const MeasuredPart& part : parts) {
        names.push_back(part.name);
        if (part.name != name) continue;
        named = &part;
        const Words& known = part.measures;
        if (std::find(known.begin(), known.end(), key) != known.end()) return "";
    }
    if (!named) return "the set has no region or meter \"" + name + "\"" + suggested(name, names);
    const std::string near = suggested(key, named->measures);
    return "\"" + key + "\" is no measure of " + named->kind +
           (near.empty() ? "; there are " + listed(named->measures) : near);
}

}  // namespace

void check_wishes(const VariantsFile& file, const Scene& scene, Problems& problems) {
    const std::vector<MeasuredPart> parts = measured_parts(scene);
    for (const Wish& wish : file.wishes) {
        const std::string problem = problem_of(wish.measure, parts);
        if (!problem.empty()) problems.add(wish.place, "rank." + wish.measure, problem);
    }
}

}  // namespace dapple
