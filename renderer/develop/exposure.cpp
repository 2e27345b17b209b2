#include "develop/exposure.h"

#include <array>
#include <cmath>
#include <cstdio>

namespace dapple {

namespace {

// N²/(t S), which E147 to E150 have in common.
double exposure_setting(double f_number, double shutter_s, double iso) {
    return f_number * f_number / (shutter_s * iso);
}

// The f-numbers one stop apart, as engraved on lenses: powers of √2, rounded.
constexpr std::array kFullStops = {
    "0.5", "0.7", "1", "1.4", "2", "2.8", "4", "5.6", "8", "11", "16", "22", "32", "45", "64"};
constexpr int kFirstFullStop = -2;          // the first, f/0.5, is two stops below f/1
constexpr double kHalfTenthOfAStop = 0.05;  // tenths of a stop are rounded to the nearest

}  // namespace

double exposure_value(double f_number, double shutter_s, double iso) {
    return std::log2(100.0 * exposure_setting(f_number, shutter_s, iso));
}

double metered_illuminance(double f_number, double shutter_s, double iso) {
    return kIncidentCalibration * exposure_setting(f_number, shutter_s, iso);
}

double white_luminance(double f_number, double shutter_s, double iso) {
    return metered_illuminance(f_number, shutter_s, iso) / kPi;
}

double metered_luminance(double f_number, double shutter_s, double iso) {
    return kReflectedCalibration * exposure_setting(f_number, shutter_s, iso);
}

double white_luminance(const Camera& camera) {
    return white_luminance(camera.f_number, camera.shutter, camera.iso);
}

double exposure_value(const Camera& camera) {
    return exposure_value(camera.f_number, camera.shutter, camera.iso);
}

double metered_f_number(double illuminance, double shutter_s, double iso, double calibration) {
    return std::sqrt(illuminance * shutter_s * iso / calibration);
}

double stops_from_ratio(double ratio) {
    return std::log2(ratio);
}

std::string f_stop_text(double f_number) {
    const double stops = 2.0 * std::log2(f_number);  // above f/1
    const int one_past_last = kFirstFullStop + static_cast<int>(kFullStops.size());
    if (!(stops > kFirstFullStop - kHalfTenthOfAStop &&
          stops < one_past_last - kHalfTenthOfAStop)) {
        char text[32];
        std::snprintf(text, sizeof text, "%.3g", f_number);
        return text;
    }
    const auto tenths = static_cast<int>(std::lround(10.0 * (stops - kFirstFullStop)));
    if (tenths % 10 != 0 && stops < 0) {  // f/0.95 is written as it is
        char text[32];
        std::snprintf(text, sizeof text, "%.2g", f_number);
        return text;
    }
    std::string text = kFullStops[static_cast<size_t>(tenths / 10)];
    if (tenths % 10 != 0) text += " + " + std::to_string(tenths % 10) + "/10";
    return text;
}

std::string exposure_text(const Camera& camera) {
    const auto shutter = static_cast<double>(camera.shutter);
    const bool is_fraction = shutter < 0.4;
    char text[128];
    std::snprintf(text,
                  sizeof text,
                  "f/%g, %s%g s, ISO %g",
                  static_cast<double>(camera.f_number),
                  is_fraction ? "1/" : "",
                  is_fraction ? std::round(1 / shutter) : shutter,
                  static_cast<double>(camera.iso));
    return text;
}

}  // namespace dapple
