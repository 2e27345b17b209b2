// A number that was measured, its standard error, or the reason why there is none.
#pragma once

#include <optional>
#include <string>
#include <utility>

namespace dapple {

struct Measure {
    std::optional<double> value;
    std::optional<double> error;  // standard error; nothing: of a kind that has none
    std::string why;              // if there is no value: one plain clause

    static Measure known(double value, double error) { return {value, error, {}}; }
    static Measure unknown(std::string why) { return {std::nullopt, std::nullopt, std::move(why)}; }
    explicit operator bool() const { return value.has_value(); }
    double operator*() const { return *value; }
};

inline const std::string kNotKnownYet = "not known yet: one pass does not show its own noise";
inline const std::string kNoPixels = "no pixels in the frame";

}  // namespace dapple
