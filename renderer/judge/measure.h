// A number that was measured, its standard error, or the reason why there is none.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "film/printed_error.h"

namespace dapple {

struct Measure {
    std::optional<double> value;
    std::optional<double> error;  // standard error; nothing: of a kind that has none
    std::string why;              // if there is no value: one plain clause
    int passes = 0;               // whose spread the error is; 0: it is not from the passes

    static Measure known(double value, double error, int passes = 0) {
        return {value, error, {}, passes};
    }
    static Measure unknown(std::string why) {
        return {std::nullopt, std::nullopt, std::move(why), 0};
    }
    // The ± to print (E114).
    std::optional<double> shown_error() const { return printed_error(error, passes); }
    explicit operator bool() const { return value.has_value(); }
    double operator*() const { return *value; }
};

// The passes behind an error that is made of two.
inline int fewer_passes(int a, int b) {
    return a == 0 || b == 0 ? std::max(a, b) : std::min(a, b);
}

inline const std::string kNotKnownYet = "not known yet: one pass does not show its own noise";
inline const std::string kNoPixels = "no pixels in the frame";

}  // namespace dapple
