#include <set>

#include "develop/film_record.h"

namespace dapple {

namespace {

// Letters, digits, - and _ are kept; any other character becomes one "_", also where it has
// several bytes in UTF-8.
std::string safe_name(const std::string& name) {
    std::string safe;
    for (const char c : name) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') || c == '-' || c == '_';
        if (plain) {
            safe += c;
        } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
            safe += '_';
        }
    }
    return safe.empty() ? "_" : safe;
}

std::string make_different(const std::string& name, std::set<std::string>& taken) {
    std::string result = name;
    for (int i = 2; !taken.insert(result).second; ++i) result = name + "_" + std::to_string(i);
    return result;
}

}  // namespace

std::vector<std::string> layer_names(const Film& film, const Scene& scene) {
    std::set<std::string> taken = {
        "luminance", "noise", "clean", "albedo", "normal", "depth", "surface", "mask", "glare"};
    std::vector<std::string> fixtures;
    for (const Fixture& fixture : scene.fixtures) {
        fixtures.push_back(make_different(safe_name(fixture.name), taken));
    }
    std::vector<std::string> layers;
    for (const LightGroup& group : film.groups()) {
        const auto f = static_cast<size_t>(group.fixture);
        if (group.fixture < 0 || f >= fixtures.size() ||
            !group.name.starts_with(scene.fixtures[f].name)) {
            layers.push_back(make_different(safe_name(group.name), taken));
            continue;
        }
        layers.push_back(fixtures[f] + group.name.substr(scene.fixtures[f].name.size()));
    }
    return layers;
}

}  // namespace dapple
