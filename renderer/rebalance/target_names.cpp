// Names may hold any character, so every colon, " to " and " at " is tried until the names on both
// sides are known.
#include "rebalance/target_names.h"

#include <algorithm>
#include <functional>

#include "base/name_words.h"
#include "develop/pair_meters.h"
#include "judge/key_and_fill.h"
#include "rebalance/target_value.h"

namespace dapple {

namespace {

using Names = std::vector<std::string>;

Names meter_names(const FilmRecord& film) {
    Names names;
    for (const MeterRecord& m : film.meters) names.push_back(m.meter.name);
    return names;
}
Names region_names(const FilmRecord& film) {
    Names names;
    for (const RegionRecord& r : film.regions) names.push_back(r.region.name);
    return names;
}
Names fixture_names(const FilmRecord& film) {
    Names names;
    for (const Fixture& f : film.fixtures) names.push_back(f.name);
    return names;
}

bool has_all_words(const std::string& name, const std::string& words) {
    const Names wanted = words_of_name(words);
    return !wanted.empty() && std::all_of(wanted.begin(), wanted.end(), [&](const auto& word) {
        return name_has_word(name, {word});
    });
}

// The indices of the things that a text may mean.
std::vector<int> meant(const Names& names, const std::string& text) {
    std::vector<int> found;
    for (size_t i = 0; i < names.size(); ++i) {
        if (names[i] == text) return {static_cast<int>(i)};
        if (has_all_words(names[i], text)) found.push_back(static_cast<int>(i));
    }
    return found;
}
int the_one(const std::vector<int>& found) {
    return found.size() == 1 ? found.front() : -1;
}

// One side of a ratio of fixtures.
struct Lamp {
    int fixture = -1;  // -1: no fixture, or several
    MeteredLight metered;
};

// "key" or "fill" alone, where no fixture has the word in its name: those that `judge` takes.
std::optional<Lamp> lamp_by_role(const FilmRecord& film, const std::string& text) {
    const Names words = words_of_name(text);
    if (words.size() != 1 || (words[0] != "key" && words[0] != "fill")) return std::nullopt;
    const KeyAndFill lights = find_key_and_fill(film, find_figure(film));
    const bool is_key = words[0] == "key";
    const std::vector<int>& fixtures = is_key ? lights.key.fixtures : lights.fill.fixtures;
    return Lamp{the_one(fixtures), is_key ? metered_key(fixtures) : metered_fill(fixtures)};
}

// Nothing if the text names no fixture.
std::optional<Lamp> find_lamp(const FilmRecord& film, const std::string& text) {
    const std::vector<int> found = meant(fixture_names(film), text);
    if (found.empty()) return lamp_by_role(film, text);
    const int one = the_one(found);
    return one < 0 ? Lamp{} : Lamp{one, metered_light(film, one)};
}

double light_at(const FilmRecord& film, const LightSpot& spot) {
    const GroupMeans& means = spot.meter >= 0
                                  ? film.meters[static_cast<size_t>(spot.meter)].lux
                                  : film.regions[static_cast<size_t>(spot.region)].luminance;
    double light = 0;
    for (size_t g = 0; g < film.layers.size(); ++g) {
        if (film.layers[g].fixture == spot.fixture) light += means.means[g];
    }
    return light;
}

// Places where a fixture's light may be taken: all meters or all regions.
using Places = std::vector<LightSpot>;

Places all_meters(const FilmRecord& film, const std::function<bool(const std::string&)>& counts) {
    Places places;
    for (size_t m = 0; m < film.meters.size(); ++m) {
        if (counts(film.meters[m].meter.name)) places.push_back({.meter = static_cast<int>(m)});
    }
    return places;
}

Places all_regions(const FilmRecord& film, const std::function<bool(const std::string&)>& counts) {
    Places places;
    for (size_t r = 0; r < film.regions.size(); ++r) {
        if (counts(film.regions[r].region.name)) places.push_back({.region = static_cast<int>(r)});
    }
    return places;
}

Places places_named(const FilmRecord& film, const std::string& name) {
    if (const auto spot = find_spot(film, name, false)) return {*spot};
    if (!is_figure_name(name)) return {};
    const Places meters = all_meters(film, is_figure_name);
    return meters.empty() ? all_regions(film, is_figure_name) : meters;
}

std::optional<LightSpot> brightest(const FilmRecord& film, const Places& places, int fixture) {
    std::optional<LightSpot> best;
    for (LightSpot place : places) {
        place.fixture = fixture;
        if (!best || light_at(film, place) > light_at(film, *best)) best = place;
    }
    return best;
}

// Two fixtures, each at its own meter (develop/pair_meters.h).
std::optional<SpotPair> at_meters(const FilmRecord& film,
                                  const Lamp& a,
                                  const Lamp& b,
                                  const Places& places) {
    std::vector<int> meters;
    for (const LightSpot& place : places) meters.push_back(place.meter);
    const MeterPair pair = pair_meters(film, a.metered, b.metered, meters);
    if (pair.first < 0) return std::nullopt;
    return SpotPair{{.meter = pair.first, .fixture = a.fixture},
                    {.meter = pair.second, .fixture = b.fixture}};
}

std::optional<SpotPair> lamps_at(const FilmRecord& film,
                                 const Lamp& a,
                                 const Lamp& b,
                                 const Places& places) {
    if (a.fixture < 0 || b.fixture < 0) return std::nullopt;
    if (!places.empty() && places.front().meter >= 0) return at_meters(film, a, b, places);
    const auto light = brightest(film, places, a.fixture);
    const auto against = brightest(film, places, b.fixture);
    if (!light || !against) return std::nullopt;
    return SpotPair{*light, *against};
}

// All light at two meters. Where the names are those of fixtures, too, only if both meters are
// called just so.
std::optional<SpotPair> two_meters(const FilmRecord& film,
                                   const std::string& a,
                                   const std::string& b,
                                   bool are_lamps) {
    const Names meters = meter_names(film);
    const int meter_a = the_one(meant(meters, a));
    const int meter_b = the_one(meant(meters, b));
    if (meter_a < 0 || meter_b < 0 || meter_a == meter_b) return std::nullopt;
    const bool are_exact =
        meters[static_cast<size_t>(meter_a)] == a && meters[static_cast<size_t>(meter_b)] == b;
    if (are_lamps && !are_exact) return std::nullopt;
    return SpotPair{{.meter = meter_a}, {.meter = meter_b}};
}

std::optional<SpotPair> pair_of(const FilmRecord& film,
                                const std::string& a,
                                const std::string& b) {
    const std::optional<Lamp> lamp_a = find_lamp(film, a);
    const std::optional<Lamp> lamp_b = find_lamp(film, b);
    const auto meters = two_meters(film, a, b, lamp_a && lamp_b);
    if (meters) return meters;
    if (!lamp_a) return std::nullopt;
    const auto every = [](const std::string&) { return true; };
    if (lamp_b) return lamps_at(film, *lamp_a, *lamp_b, all_meters(film, every));
    for (size_t at = b.find(" at "); at != std::string::npos; at = b.find(" at ", at + 1)) {
        const auto other = find_lamp(film, without_blanks(b.substr(0, at)));
        if (!other) continue;
        const Places places = places_named(film, without_blanks(b.substr(at + 4)));
        const auto found = lamps_at(film, *lamp_a, *other, places);
        if (found) return found;
    }
    return std::nullopt;
}

std::string quoted(const Names& names) {
    std::string text;
    for (const std::string& name : names) text += " \"" + name + "\"";
    return names.empty() ? " none" : text;
}

// Of several things that a text may mean; "" if there are not several.
std::string candidates_text(const FilmRecord& film, const std::string& text) {
    for (const Names& names : {meter_names(film), region_names(film), fixture_names(film)}) {
        const std::vector<int> found = meant(names, text);
        if (found.size() < 2) continue;
        Names several;
        for (const int i : found) several.push_back(names[static_cast<size_t>(i)]);
        return "may mean" + quoted(several) + "; write one of them";
    }
    return "";
}

// Why "key" or "fill" is no fixture; "" if they are not asked for, or are there.
std::string no_such_light(const FilmRecord& film, const std::string& text) {
    const Names words = words_of_name(text);
    for (const std::string word : {"key", "fill"}) {
        if (std::find(words.begin(), words.end(), word) == words.end()) continue;
        const auto lamp = find_lamp(film, word);
        if (!meant(fixture_names(film), word).empty() || lamp->fixture >= 0) continue;
        return "there is no " + word +
               ": no fixture has the word in its name, and no other gives light there; for all "
               "light at two meters write their whole names";
    }
    return "";
}

// "key:fill", "key:fill at figure"
bool are_two_fixtures(const FilmRecord& film, const std::string& text) {
    const size_t colon = text.find(':');
    if (colon == std::string::npos) return false;
    std::string second = text.substr(colon + 1);
    second = second.substr(0, second.find(" at "));
    return find_lamp(film, without_blanks(text.substr(0, colon))) &&
           find_lamp(film, without_blanks(second));
}

}  // namespace

std::optional<LightSpot> find_spot(const FilmRecord& film,
                                   const std::string& name,
                                   bool prefers_region) {
    const Names meters = meter_names(film);
    const Names regions = region_names(film);
    const int meter = the_one(meant(meters, name));
    const int region = the_one(meant(regions, name));
    const bool is_exact = meter >= 0 && meters[static_cast<size_t>(meter)] == name;
    const bool region_is_exact = region >= 0 && regions[static_cast<size_t>(region)] == name;
    if (region_is_exact && (prefers_region || !is_exact)) return LightSpot{.region = region};
    if (is_exact) return LightSpot{.meter = meter};
    if (region >= 0 && (prefers_region || meter < 0)) return LightSpot{.region = region};
    return meter >= 0 ? std::optional(LightSpot{.meter = meter}) : std::nullopt;
}

std::optional<SpotPair> find_pair(const FilmRecord& film, const std::string& text) {
    for (const std::string sign : {":", " to "}) {
        for (size_t at = text.find(sign); at != std::string::npos; at = text.find(sign, at + 1)) {
            const auto pair = pair_of(film,
                                      without_blanks(text.substr(0, at)),
                                      without_blanks(text.substr(at + sign.size())));
            if (pair) return pair;
        }
    }
    return std::nullopt;
}

std::string name_advice(const FilmRecord& film, const std::string& text) {
    Names names;
    for (const Names& some : {meter_names(film), region_names(film), fixture_names(film)}) {
        names.insert(names.end(), some.begin(), some.end());
    }
    const std::string no_light = no_such_light(film, text);
    if (!no_light.empty()) return no_light;
    if (film.meters.empty() && are_two_fixtures(film, text)) {
        return "two fixtures are compared at a meter, and the set has none: add a [[meter]], such "
               "as "
               "position = \"figure face\", and render again; or name a region: \"A:B at REGION = "
               "4\"";
    }
    std::string rest = text;
    while (true) {
        const size_t colon = rest.find(':');
        const std::string part = without_blanks(rest.substr(0, colon));
        const bool is_known = std::find(names.begin(), names.end(), part) != names.end();
        const std::string candidates = is_known ? "" : candidates_text(film, part);
        if (!candidates.empty()) return candidates;
        const std::string nearest = is_known ? "" : nearest_word(part, names);
        if (!nearest.empty()) return "names no light of this film; did you mean " + nearest + "?";
        if (colon == std::string::npos) break;
        rest = rest.substr(colon + 1);
    }
    return "names no light of this film; there are meters:" + quoted(meter_names(film)) +
           "; regions:" + quoted(region_names(film)) + "; fixtures:" + quoted(fixture_names(film));
}

}  // namespace dapple
