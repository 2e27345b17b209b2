#include "search/search_words.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/written_number.h"
#include "night/night_measures.h"
#include "set/variants/measure_words.h"

namespace dapple {

namespace {

struct WordPair {
    std::string_view word, key;
};
constexpr std::array<WordPair, 2> kKeyWords = {{{"turn", "turn_deg"}, {"tilt", "tilt_deg"}}};
constexpr std::string_view kDistance = "distance from ";
const std::string kVaryForm = "write WHAT=FROM..TO, such as turn=0..15";
const std::string kWantForm =
    "write PLACE.measure=more, =less or =NUMBER, such as \"back wall.texture=more\" or key:fill=4";

std::string key_for(const std::string& word) {
    for (const WordPair& pair : kKeyWords) {
        if (pair.word == word) return std::string(pair.key);
    }
    return word;
}

std::string without_blanks(const std::string& text) {
    const size_t begin = text.find_first_not_of(' ');
    if (begin == std::string::npos) return "";
    return text.substr(begin, text.find_last_not_of(' ') + 1 - begin);
}

// The two sides of the last `=`.
std::optional<std::pair<std::string, std::string>> split_words(const std::string& words) {
    const size_t at = words.rfind('=');
    if (at == std::string::npos) return std::nullopt;
    return std::pair{without_blanks(words.substr(0, at)), without_blanks(words.substr(at + 1))};
}

struct Ends {
    double from = 0, to = 0;
};
std::optional<Ends> read_ends(const std::string& text, const std::string& key) {
    const size_t dots = text.find("..");
    if (dots == std::string::npos) return std::nullopt;
    const Quantity& quantity = quantity_of(key);
    const auto from = number_in_words(without_blanks(text.substr(0, dots)), quantity);
    const auto to = number_in_words(without_blanks(text.substr(dots + 2)), quantity);
    if (!from || !to || !(*from < *to)) return std::nullopt;
    return Ends{*from, *to};
}

std::optional<size_t> axis_named(const std::string& what) {
    if (what == "x") return 0;
    if (what == "y" || what == "height") return 1;
    if (what == "z") return 2;
    return std::nullopt;
}

// Metres from the fixture, level with the thing, on the line through where the thing stands now.
std::optional<PlaceBounds> line_from(const Fixture& fixture, const Metres3& present, Ends metres) {
    const std::array<double, 2> way = {present[0] - static_cast<double>(fixture.position.x),
                                       present[2] - static_cast<double>(fixture.position.z)};
    const double length = std::hypot(way[0], way[1]);
    if (!(length > 1e-6)) return std::nullopt;
    const auto at = [&](double m) {
        return Metres3{static_cast<double>(fixture.position.x) + m * way[0] / length,
                       present[1],
                       static_cast<double>(fixture.position.z) + m * way[1] / length};
    };
    return PlaceBounds{at(metres.from), at(metres.to), true};
}

void add_line(const std::string& name,
              Ends metres,
              const Metres3& present,
              const Scene& scene,
              SearchSpace& space,
              Problems& problems) {
    std::vector<std::string> names;
    for (const Fixture& fixture : scene.fixtures) {
        names.push_back(fixture.name);
        if (fixture.name != name) continue;
        space.place = line_from(fixture, present, metres);
        if (!space.place) problems.add({}, "--vary", "the thing is right above the fixture");
        return;
    }
    const std::string nearest = nearest_word(name, names);
    problems.add({},
                 "--vary",
                 "there is no fixture \"" + name + "\"" +
                     (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
}

bool read_value(std::string text, Wish& wish) {
    if (const size_t star = text.rfind('*'); star != std::string::npos) {
        const std::string weight = without_blanks(text.substr(star + 1));
        const char* end = weight.data() + weight.size();
        if (std::from_chars(weight.data(), end, wish.weight).ptr != end) return false;
        if (weight.empty() || !(wish.weight > 0)) return false;
        text = without_blanks(text.substr(0, star));
    }
    if (text == "more" || text == "most") wish.kind = WishKind::kMost;
    if (text == "less" || text == "least") wish.kind = WishKind::kLeast;
    if (wish.kind != WishKind::kNear) return true;
    const char* end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, wish.want);
    return !text.empty() && read.ptr == end && std::isfinite(wish.want);
}

// "key:fill" alone is that of the figure, or of the meters without one; "lit side" that of the
// figure.
std::string whole_measure(const std::string& words, const Scene& scene) {
    const bool is_ratio = words == "key:fill" || words == "lit:shadow";
    if (is_ratio) return (scene.stand_ins.empty() ? "meters." : "figure.") + words;
    const bool is_side = words.starts_with("lit side.") || words.starts_with("shadow side.");
    return is_side ? "figure, " + words : words;
}

// Whether something of the set can be measured under that name; a surface gets a region.
bool can_be_measured(const std::string& name,
                     const Scene& scene,
                     std::string& set_text,
                     Problems& problems) {
    std::vector<std::string> names = sides_of_figure();
    names.insert(names.end(), {"frame", "figure", "meters"});
    for (const Region& region : scene.regions) names.push_back(region.name);
    for (const Meter& meter : scene.meters) names.push_back(meter.name);
    if (std::find(names.begin(), names.end(), name) != names.end()) return true;
    for (const Material& material : scene.materials) {
        names.push_back(material.name);
        if (material.name != name) continue;
        const std::string quoted = nlohmann::json(name).dump();
        set_text += (set_text.ends_with('\n') ? "\n" : "\n\n") +
                    std::string("[[region]]\nname = ") + quoted + "\nsurface = " + quoted + "\n";
        return true;
    }
    const std::string nearest = nearest_word(name, names);
    problems.add({},
                 "--want",
                 "the set has no region, meter or surface \"" + name + "\"" +
                     (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
    return false;
}

}  // namespace

std::optional<OutlineTable> find_thing(const std::vector<OutlineTable>& tables,
                                       const std::string& words,
                                       Problems& problems) {
    std::vector<OutlineTable> found;
    std::vector<std::string> names;
    for (const OutlineTable& table : tables) {
        if (table.address.empty() || table.name.empty() || !position_of(table)) continue;
        names.push_back(table.name);
        if (table.name == words || table.address == words) found.push_back(table);
    }
    if (found.size() == 1) return found.front();
    if (found.size() > 1) {
        problems.add({},
                     "--move",
                     "several things are called \"" + words + "\"; write " + found[0].address +
                         " or " + found[1].address);
        return std::nullopt;
    }
    const std::string nearest = nearest_word(words, names);
    std::string all;
    for (const std::string& name : names) all += (all.empty() ? "" : ", ") + name;
    problems.add(
        {},
        "--move",
        "nothing that has its position in numbers is called \"" + words + "\"" +
            (nearest.empty() ? "; there are " + all : "; did you mean \"" + nearest + "\"?"));
    return std::nullopt;
}

std::optional<Metres3> position_of(const OutlineTable& thing) {
    for (const OutlineKey& key : thing.keys) {
        if (key.key != "position") continue;
        const nlohmann::json value = nlohmann::json::parse(key.json, nullptr, false);
        if (!value.is_array() || value.size() != 3) return std::nullopt;
        Metres3 position{};
        for (size_t i = 0; i < 3; ++i) {
            const auto metres =
                value[i].is_number() ? std::optional(value[i].get<double>())
                : value[i].is_string()
                    ? number_in_words(value[i].get<std::string>(), quantity_of("position"))
                    : std::nullopt;
            if (!metres) return std::nullopt;
            position[i] = *metres;
        }
        return position;
    }
    return std::nullopt;
}

std::optional<Wish> read_want(const std::string& words,
                              const Scene& scene,
                              std::string& set_text,
                              Problems& problems) {
    const auto sides = split_words(words);
    const std::string what = sides ? whole_measure(sides->first, scene) : "";
    const size_t dot = what.rfind('.');
    Wish wish;
    wish.place.file = "--want";
    if (dot == std::string::npos || !read_value(sides->second, wish)) {
        problems.add({}, "--want", "is \"" + words + "\"; " + kWantForm);
        return std::nullopt;
    }
    const std::string name = what.substr(0, dot);
    if (!can_be_measured(name, scene, set_text, problems)) return std::nullopt;
    wish.measure = name + "." + measure_key(what.substr(dot + 1));
    return wish;
}

void add_varied(const std::string& words,
                const Metres3& present,
                const Scene& scene,
                SearchSpace& space,
                Problems& problems) {
    const auto sides = split_words(words);
    const std::string what = sides ? sides->first : "";
    const bool is_distance = what.starts_with(kDistance);
    const auto axis = axis_named(what);
    const std::string key = key_for(what);
    const bool is_metres = is_distance || axis;
    const auto ends = sides ? read_ends(sides->second, is_metres ? "position" : key) : std::nullopt;
    if (!ends || what.empty()) {
        problems.add({}, "--vary", "is \"" + words + "\"; " + kVaryForm);
    } else if (is_metres && space.place && (is_distance || space.place->is_line)) {
        problems.add({}, "--vary", "a distance cannot go with --within, x, height or z");
    } else if (is_distance) {
        add_line(what.substr(kDistance.size()), *ends, present, scene, space, problems);
    } else if (axis) {
        if (!space.place) space.place = PlaceBounds{present, present, false};
        space.place->from[*axis] = ends->from;
        space.place->to[*axis] = ends->to;
    } else {
        space.keys.push_back({key, ends->from, ends->to});
    }
}

}  // namespace dapple
