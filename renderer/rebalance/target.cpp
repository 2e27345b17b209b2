#include "rebalance/target.h"

#include <array>
#include <cmath>
#include <cstdio>

#include "base/number_words.h"
#include "develop/exposure.h"

namespace dapple {

namespace {

constexpr double kMidGrey = 0.18;  // of white (exposure.h)

template <class... Values>
std::string formatted(const char* format, Values... values) {
    std::array<char, 128> text{};
    std::snprintf(text.data(), text.size(), format, values...);
    return text.data();
}

// log2 of the light at which the spot reads 0 stops: the camera's exposure at a meter, mid grey on
// a region.
double log_zero(const FilmRecord& film, const LightSpot& spot) {
    const Camera& c = film.camera;
    if (spot.region >= 0) return std::log2(kMidGrey * white_luminance(c));
    const Meter& meter = film.meters[static_cast<size_t>(spot.meter)].meter;
    const double lux = metered_illuminance(c.f_number, c.shutter, c.iso);
    const bool is_dome = meter.receptor == ReceptorKind::kDome;
    return std::log2(lux * (is_dome ? kDomeCalibration / kIncidentCalibration : 1));
}

}  // namespace

double value_in_unit(const FilmRecord& film, const Target& target, double log_light) {
    switch (target.unit) {
        case TargetUnit::kFStop:
            // Two stops double the f-number.
            return static_cast<double>(film.camera.f_number) *
                   std::exp2(0.5 * (log_light - log_zero(film, target.light)));
        case TargetUnit::kStops:
            return target.against ? log_light : log_light - log_zero(film, target.light);
        default:
            return std::exp2(log_light);
    }
}

std::string value_text(const FilmRecord& film, const Target& target, double log_light) {
    const double value = value_in_unit(film, target, log_light);
    switch (target.unit) {
        case TargetUnit::kFStop:
            return "f/" + f_stop_text(value);
        case TargetUnit::kStops:
            return signed_number(value, 1) + " stops";
        case TargetUnit::kLux:
            return round_number(value, 4) + " lx";
        default:
            return round_number(value, 3) + ":1";
    }
}

std::string spot_text(const FilmRecord& film, const LightSpot& spot) {
    std::string text = spot.meter >= 0 ? film.meters[static_cast<size_t>(spot.meter)].meter.name
                                       : film.regions[static_cast<size_t>(spot.region)].region.name;
    if (spot.fixture < 0) return text;
    return film.fixtures[static_cast<size_t>(spot.fixture)].name + " at " + text;
}

}  // namespace dapple
