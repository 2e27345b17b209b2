// One line of the user to a target.
#include <cmath>

#include "rebalance/target_names.h"
#include "rebalance/target_value.h"

namespace dapple {

namespace {

constexpr double kMostFNumber = 64;  // a larger number alone is no f-number

// The name and the value of "NAME = VALUE". A ratio alone, "4:1", is that of key to fill.
struct TargetLine {
    std::string name;
    WantedValue wanted;
};
std::optional<TargetLine> read_line(const std::string& text) {
    const size_t equals = text.rfind('=');
    const bool is_alone = equals == std::string::npos;
    const auto wanted =
        read_target_value(without_blanks(is_alone ? text : text.substr(equals + 1)));
    if (!wanted || (is_alone && !wanted->is_ratio)) return std::nullopt;
    return TargetLine{is_alone ? "key:fill" : without_blanks(text.substr(0, equals)), *wanted};
}

// Why a value does not go with a meter or a region; "" if it does.
std::string mismatch(const WantedValue& wanted, const LightSpot& spot) {
    const std::string kind = spot.region >= 0 ? "is a region; give stops against mid grey, such as "
                                                "-1 stop, or what a spot meter reads, such as f/4"
                                              : "is a meter; give f/4, 800 lx or 0.5 stops";
    if (wanted.is_ratio) return kind + "; a ratio has two sides, such as key:fill = 4";
    if (wanted.is_number && wanted.value > kMostFNumber) {
        return kind + "; a number alone is an f-number";
    }
    return spot.region >= 0 && wanted.unit == TargetUnit::kLux ? kind : "";
}

// Every unit is the logarithm of the light with another zero.
void set_wanted(const FilmRecord& film, const WantedValue& wanted, Target& target) {
    if (wanted.is_number) target.unit = TargetUnit::kFStop;
    if (target.unit == TargetUnit::kLux) {
        target.wanted = std::log2(wanted.value);
    } else if (target.unit == TargetUnit::kStops) {
        target.wanted = wanted.value - value_in_unit(film, target, 0);
    } else {
        target.wanted = 2 * std::log2(wanted.value / value_in_unit(film, target, 0));
    }
}

bool may_be_ratio(const WantedValue& wanted) {
    return wanted.unit == TargetUnit::kRatio || wanted.unit == TargetUnit::kStops;
}

}  // namespace

std::optional<Target> parse_target(const FilmRecord& film,
                                   const std::string& text,
                                   Problems& problems) {
    const Place place{text};
    const auto line = read_line(text);
    if (!line) {
        problems.add(place, "", std::string("must be ") + kTargetForms);
        return std::nullopt;
    }
    const WantedValue& wanted = line->wanted;
    Target target{text, {}, std::nullopt, wanted.unit, 0};
    const auto spot = find_spot(film, line->name, wanted.unit == TargetUnit::kStops);
    const auto pair = may_be_ratio(wanted) && !spot ? find_pair(film, line->name) : std::nullopt;
    if (pair) {
        target.light = pair->light;
        target.against = pair->against;
        const bool is_stops = wanted.unit == TargetUnit::kStops;
        target.wanted = is_stops ? wanted.value : std::log2(wanted.value);
        return target;
    }
    const std::string wrong = spot ? mismatch(wanted, *spot) : name_advice(film, line->name);
    if (!wrong.empty()) {
        problems.add(place, "", wrong);
        return std::nullopt;
    }
    target.light = *spot;
    set_wanted(film, wanted, target);
    return target;
}

}  // namespace dapple
