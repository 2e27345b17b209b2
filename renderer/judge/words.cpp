#include "judge/words.h"

#include <cmath>

namespace dapple {

std::string light_word(double stops_from_camera) {
    if (!std::isfinite(stops_from_camera)) return "no light";
    const double off = std::abs(stops_from_camera);
    if (off <= 1.0 / 3.0) return "as set";
    const std::string side = stops_from_camera < 0 ? "under" : "over";
    if (off <= 1) return "a little " + side;
    return off <= 3 ? side : "far " + side;
}

std::string light_word(const Measure& stops_from_camera) {
    constexpr double kSure = 1.0 / 6;  // stops
    if (!stops_from_camera || !std::isfinite(*stops_from_camera)) return "no light";
    const std::optional<double> error = stops_from_camera.shown_error();
    return error && *error < kSure ? light_word(*stops_from_camera) : kNotSureYet;
}

std::string ratio_word(double ratio) {
    if (ratio < 0.67) return "reversed";
    if (ratio < 1.5) return "flat";
    if (ratio < 3) return "soft";
    return ratio < 8 ? "strong" : "stark";
}

std::string ratio_word(const Measure& ratio) {
    constexpr double kSure = 0.5;  // stops
    if (!ratio) return kNotSureYet;
    const std::optional<double> error = ratio.shown_error();
    const bool is_sure = error && *error <= kSure * std::log(2.0) * *ratio;
    return is_sure ? ratio_word(*ratio) : kNotSureYet;
}

std::string texture_word(double texture_stops) {
    if (texture_stops < 0.1) return "even";
    if (texture_stops < 0.35) return "gentle";
    return texture_stops < 0.8 ? "broken" : "hard";
}

std::string shadow_word(double share) {
    if (share < 0.1) return "open";
    return share < 0.4 ? "partly deep" : "deep";
}

std::string clipping_word(double share) {
    if (share < 0.001) return "hold";
    return share < 0.01 ? "a little burnt" : "burnt";
}

}  // namespace dapple
