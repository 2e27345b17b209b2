#include "judge/key_and_fill.h"

#include <algorithm>

#include "base/name_words.h"
#include "judge/fixture_light.h"

namespace dapple {

namespace {

std::vector<int> fixtures_with_word(const FilmRecord& record, const std::string& word) {
    std::vector<int> found;
    for (size_t f = 0; f < record.fixtures.size(); ++f) {
        if (name_has_word(record.fixtures[f].name, {word})) found.push_back(static_cast<int>(f));
    }
    return found;
}

bool is_one_of(const std::vector<int>& list, size_t fixture) {
    return std::find(list.begin(), list.end(), static_cast<int>(fixture)) != list.end();
}

// The strongest by `light`, of those that are not in `but`.
std::vector<int> strongest(const std::vector<double>& light, const std::vector<int>& but) {
    int best = -1;
    for (size_t f = 0; f < light.size(); ++f) {
        if (is_one_of(but, f) || !(light[f] > 0)) continue;
        if (best < 0 || light[f] > light[static_cast<size_t>(best)]) best = static_cast<int>(f);
    }
    return best < 0 ? std::vector<int>{} : std::vector<int>{best};
}

// Illuminance of each fixture, summed over the meters.
std::vector<double> light_at_meters(const FilmRecord& record) {
    std::vector<double> sums(record.fixtures.size(), 0.0);
    for (const MeterRecord& meter : record.meters) {
        const Reading reading = reading_of(record, meter);
        for (size_t f = 0; f < sums.size(); ++f) sums[f] += reading.by_fixture[f].lux;
    }
    return sums;
}

std::vector<double> light_on_pixels(const FilmRecord& record, const std::vector<int32_t>& pixels) {
    return pixels.empty() ? light_at_meters(record) : fixture_luminance(record, pixels);
}

}  // namespace

KeyAndFill find_key_and_fill(const FilmRecord& record, const Figure& figure) {
    KeyAndFill found;
    found.key = {fixtures_with_word(record, "key"), true};
    if (found.key.fixtures.empty()) {
        found.key = {strongest(light_on_pixels(record, figure.skin), {}), false};
    }
    found.sides = find_figure_sides(record, figure, found.key.fixtures);
    found.fill = {fixtures_with_word(record, "fill"), true};
    if (found.fill.fixtures.empty()) {
        const std::vector<double> light = light_on_pixels(record, found.sides.shadow);
        found.fill = {strongest(light, found.key.fixtures), false};
    }
    return found;
}

std::string names_of(const FilmRecord& record, const LightRole& role) {
    std::string text;
    for (const int f : role.fixtures) {
        text += (text.empty() ? "" : " and ") + record.fixtures[static_cast<size_t>(f)].name;
    }
    return text;
}

}  // namespace dapple
