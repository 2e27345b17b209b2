#include "rebalance/target_value.h"

#include <charconv>
#include <cmath>

namespace dapple {

namespace {

// The number at the beginning, and what comes after it.
struct NumberAndRest {
    double number = 0;
    std::string rest;
};
std::optional<NumberAndRest> read_decimal(const std::string& text) {
    NumberAndRest result;
    const char* first = text.data() + (text.starts_with('+') ? 1 : 0);
    const auto [stop, error] = std::from_chars(first, text.data() + text.size(), result.number);
    if (error != std::errc() || !std::isfinite(result.number)) return std::nullopt;
    result.rest = without_blanks(std::string(stop, text.data() + text.size()));
    return result;
}

// "4", "-1.5", "1/3", "1 2/3"
std::optional<NumberAndRest> read_number(const std::string& text) {
    const auto whole = read_decimal(text);
    if (!whole) return std::nullopt;
    if (whole->rest.starts_with('/')) {
        const auto below = read_decimal(whole->rest.substr(1));
        if (!below || !(below->number > 0)) return std::nullopt;
        return NumberAndRest{whole->number / below->number, below->rest};
    }
    const auto above = read_decimal(whole->rest);
    if (!above || !above->rest.starts_with('/')) return whole;
    const auto below = read_decimal(above->rest.substr(1));
    if (!below || !(below->number > 0) || !(above->number > 0)) return std::nullopt;
    const double part = above->number / below->number;
    return NumberAndRest{whole->number + std::copysign(part, whole->number), below->rest};
}

// "4", "5.6 + 3/10": an f-number with tenths of a stop.
std::optional<double> read_f_stop(const std::string& text) {
    const auto stop = read_decimal(text);
    if (!stop || !(stop->number > 0)) return std::nullopt;
    if (stop->rest.empty()) return stop->number;
    if (!stop->rest.starts_with('+')) return std::nullopt;
    const auto tenths = read_decimal(without_blanks(stop->rest.substr(1)));
    if (!tenths || tenths->rest != "/10") return std::nullopt;
    return stop->number * std::exp2(tenths->number / 20);
}

// What follows the f of "f/4", "F4" and "f 4".
std::optional<std::string> behind_f(const std::string& text) {
    if (!text.starts_with('f') && !text.starts_with('F')) return std::nullopt;
    const std::string rest = without_blanks(text.substr(1));
    return rest.starts_with('/') ? without_blanks(rest.substr(1)) : rest;
}

// ":1", ": 1", "to 1"
bool is_to_one(const std::string& text) {
    const size_t sign = text.starts_with("to ") ? 2 : text.starts_with(':') ? 1 : 0;
    return sign > 0 && without_blanks(text.substr(sign)) == "1";
}

}  // namespace

std::string without_blanks(const std::string& text) {
    const size_t first = text.find_first_not_of(' ');
    if (first == std::string::npos) return "";
    return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

std::optional<WantedValue> read_target_value(const std::string& text) {
    if (const auto stop = behind_f(text)) {
        const auto f = read_f_stop(*stop);
        return f ? std::optional(WantedValue{TargetUnit::kFStop, *f}) : std::nullopt;
    }
    const auto n = read_number(text);
    if (!n) return std::nullopt;
    if (n->rest == "stop" || n->rest == "stops") return WantedValue{TargetUnit::kStops, n->number};
    if (!(n->number > 0)) return std::nullopt;
    if (n->rest == "lx" || n->rest == "lux") return WantedValue{TargetUnit::kLux, n->number};
    if (is_to_one(n->rest)) return WantedValue{TargetUnit::kRatio, n->number, true, false};
    if (n->rest.empty()) return WantedValue{TargetUnit::kRatio, n->number, false, true};
    return std::nullopt;
}

}  // namespace dapple
