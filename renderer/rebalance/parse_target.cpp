// One line of the user to a target. Names may hold any character, so every colon, " at " and equals
// sign is tried until the names on both sides are known.
#include <algorithm>
#include <charconv>
#include <cmath>

#include "develop/exposure.h"
#include "rebalance/target.h"

namespace dapple {

namespace {

std::string trim(const std::string& text) {
    const size_t first = text.find_first_not_of(' ');
    if (first == std::string::npos) return "";
    return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

// The number at the beginning, and what comes after it.
struct NumberAndRest {
    double number = 0;
    std::string rest;
};
std::optional<NumberAndRest> read_number(const std::string& text) {
    NumberAndRest result;
    const char* first = text.data() + (text.starts_with('+') ? 1 : 0);
    const auto [stop, error] = std::from_chars(first, text.data() + text.size(), result.number);
    if (error != std::errc() || !std::isfinite(result.number)) return std::nullopt;
    result.rest = trim(std::string(stop, text.data() + text.size()));
    return result;
}

// "4", "5.6 + 3/10": an f-number with tenths of a stop.
std::optional<double> read_f_stop(const std::string& text) {
    const auto stop = read_number(text);
    if (!stop || !(stop->number > 0)) return std::nullopt;
    if (stop->rest.empty()) return stop->number;
    if (!stop->rest.starts_with('+')) return std::nullopt;
    const auto tenths = read_number(trim(stop->rest.substr(1)));
    if (!tenths || tenths->rest != "/10") return std::nullopt;
    return stop->number * std::exp2(tenths->number / 20);
}

struct Wanted {
    TargetUnit unit = TargetUnit::kRatio;
    double value = 0;  // an f-number, stops, lx or a ratio
};
std::optional<Wanted> read_value(const std::string& text) {
    if (text.starts_with("f/")) {
        const auto f = read_f_stop(trim(text.substr(2)));
        return f ? std::optional(Wanted{TargetUnit::kFStop, *f}) : std::nullopt;
    }
    const auto n = read_number(text);
    if (!n) return std::nullopt;
    if (n->rest == "stop" || n->rest == "stops") return Wanted{TargetUnit::kStops, n->number};
    const bool is_light = n->rest == "lx" || n->rest == "lux";
    if (is_light && n->number > 0) return Wanted{TargetUnit::kLux, n->number};
    const bool is_ratio = n->rest.empty() || n->rest == ":1";
    if (is_ratio && n->number > 0) return Wanted{TargetUnit::kRatio, n->number};
    return std::nullopt;
}

template <class Things, class NameOf>
int index_of(const Things& things, const std::string& name, const NameOf& name_of) {
    for (size_t i = 0; i < things.size(); ++i) {
        if (name_of(things[i]) == name) return static_cast<int>(i);
    }
    return -1;
}

int meter_named(const FilmRecord& film, const std::string& name) {
    return index_of(film.meters, name, [](const MeterRecord& m) { return m.meter.name; });
}
int region_named(const FilmRecord& film, const std::string& name) {
    return index_of(film.regions, name, [](const RegionRecord& r) { return r.region.name; });
}
int fixture_named(const FilmRecord& film, const std::string& name) {
    return index_of(film.fixtures, name, [](const Fixture& f) { return f.name; });
}

double fixture_lux(const FilmRecord& film, size_t meter, int fixture) {
    double lux = 0;
    for (size_t g = 0; g < film.layers.size(); ++g) {
        if (film.layers[g].fixture == fixture) lux += film.meters[meter].lux.means[g];
    }
    return lux;
}

// The meter that gets the most light of a fixture; -1 without meters.
int brightest_meter(const FilmRecord& film, int fixture) {
    int best = film.meters.empty() ? -1 : 0;
    for (size_t m = 1; m < film.meters.size(); ++m) {
        if (fixture_lux(film, m, fixture) > fixture_lux(film, static_cast<size_t>(best), fixture)) {
            best = static_cast<int>(m);
        }
    }
    return best;
}

struct Sides {
    LightSpot light, against;
};

// "A:B" or "A:B at METER"; A and B are two meters or two fixtures.
std::optional<Sides> read_sides(const FilmRecord& film, const std::string& text) {
    for (size_t colon = text.find(':'); colon != std::string::npos;
         colon = text.find(':', colon + 1)) {
        const std::string a = trim(text.substr(0, colon));
        const std::string b = trim(text.substr(colon + 1));
        const int meter_a = meter_named(film, a);
        const int meter_b = meter_named(film, b);
        if (meter_a >= 0 && meter_b >= 0) return Sides{{.meter = meter_a}, {.meter = meter_b}};
        const int fixture_a = fixture_named(film, a);
        if (fixture_a < 0) continue;
        const int fixture_b = fixture_named(film, b);
        if (fixture_b >= 0 && !film.meters.empty()) {
            return Sides{{.meter = brightest_meter(film, fixture_a), .fixture = fixture_a},
                         {.meter = brightest_meter(film, fixture_b), .fixture = fixture_b}};
        }
        for (size_t at = b.find(" at "); at != std::string::npos; at = b.find(" at ", at + 1)) {
            const int other = fixture_named(film, trim(b.substr(0, at)));
            const int meter = meter_named(film, trim(b.substr(at + 4)));
            if (other < 0 || meter < 0) continue;
            return Sides{{.meter = meter, .fixture = fixture_a},
                         {.meter = meter, .fixture = other}};
        }
    }
    return std::nullopt;
}

std::optional<LightSpot> read_spot(const FilmRecord& film,
                                   const std::string& name,
                                   TargetUnit unit) {
    const int meter = meter_named(film, name);
    const int region = region_named(film, name);
    if (unit == TargetUnit::kStops && region >= 0) return LightSpot{.region = region};
    if (meter >= 0) return LightSpot{.meter = meter};
    if (region >= 0) return LightSpot{.region = region};
    return std::nullopt;
}

std::string known_names(const FilmRecord& film) {
    std::string list = "meters:";
    for (const MeterRecord& m : film.meters) list += " \"" + m.meter.name + "\"";
    if (film.meters.empty()) list += " none";
    list += "; regions:";
    for (const RegionRecord& r : film.regions) list += " \"" + r.region.name + "\"";
    if (film.regions.empty()) list += " none";
    list += "; fixtures:";
    for (const Fixture& f : film.fixtures) list += " \"" + f.name + "\"";
    return list;
}

// The known name that is nearest to one side of the target.
std::string suggestion(const FilmRecord& film, const std::string& left) {
    std::vector<std::string> names;
    for (const MeterRecord& m : film.meters) names.push_back(m.meter.name);
    for (const RegionRecord& r : film.regions) names.push_back(r.region.name);
    for (const Fixture& f : film.fixtures) names.push_back(f.name);
    std::string rest = left;
    while (true) {
        const size_t colon = rest.find(':');
        const std::string part = trim(rest.substr(0, colon));
        const bool is_known = std::find(names.begin(), names.end(), part) != names.end();
        const std::string nearest = is_known ? "" : nearest_word(part, names);
        if (!nearest.empty()) return "; did you mean " + nearest + "?";
        if (colon == std::string::npos) return "";
        rest = rest.substr(colon + 1);
    }
}

}  // namespace

std::optional<Target> parse_target(const FilmRecord& film,
                                   const std::string& text,
                                   Problems& problems) {
    const Place place{text};
    const size_t equals = text.rfind('=');
    const auto wanted =
        equals == std::string::npos ? std::nullopt : read_value(trim(text.substr(equals + 1)));
    if (!wanted) {
        problems.add(place,
                     "",
                     "must be \"METER = f/4\", \"METER = 800 lx\", \"METER = 0.5 stops\", "
                     "\"REGION = -1 stop\" or \"A:B = 4\"");
        return std::nullopt;
    }
    const std::string left = trim(text.substr(0, equals));
    Target target{text, {}, std::nullopt, wanted->unit, 0};
    const bool may_be_ratio =
        wanted->unit == TargetUnit::kRatio || wanted->unit == TargetUnit::kStops;
    const auto spot = read_spot(film, left, wanted->unit);
    const auto sides = may_be_ratio && !spot ? read_sides(film, left) : std::nullopt;
    if (sides) {
        target.light = sides->light;
        target.against = sides->against;
        target.wanted =
            wanted->unit == TargetUnit::kStops ? wanted->value : std::log2(wanted->value);
        return target;
    }
    if (!spot) {
        const std::string near = suggestion(film, left);
        problems.add(place,
                     "",
                     "names no light of this film" +
                         (near.empty() ? "; there are " + known_names(film) : near));
        return std::nullopt;
    }
    target.light = *spot;
    if (wanted->unit == TargetUnit::kRatio ||
        (spot->region >= 0 && wanted->unit != TargetUnit::kStops)) {
        problems.add(place,
                     "",
                     spot->region >= 0 ? "is a region; give stops against mid grey, such as -1 stop"
                                       : "is a meter; give f/4, 800 lx or 0.5 stops");
        return std::nullopt;
    }
    // Every unit is the logarithm of the light with another zero.
    if (wanted->unit == TargetUnit::kLux) {
        target.wanted = std::log2(wanted->value);
    } else if (wanted->unit == TargetUnit::kStops) {
        target.wanted = wanted->value - value_in_unit(film, target, 0);
    } else {
        target.wanted = 2 * std::log2(wanted->value / value_in_unit(film, target, 0));
    }
    return target;
}

}  // namespace dapple
