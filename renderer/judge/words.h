// Plain words for measures, with their thresholds. All are ours: common practice, no source.
#pragma once

#include <array>
#include <string>

#include "judge/measure.h"

namespace dapple {

// Of the stops of a meter from the camera's setting.
//   as set within a third, a little under or over within one, under or over within three,
//   far under or over beyond
std::string light_word(double stops_from_camera);

inline constexpr const char* kNotSureYet = "not sure yet";

// The same of what was measured: kNotSureYet unless its ± is known to be under a sixth of a stop,
// half of what the words tell apart.
std::string light_word(const Measure& stops_from_camera);

// Of a ratio :1 of two lights. reversed < 0.67 ≤ flat < 1.5 ≤ soft < 3 ≤ strong < 8 ≤ stark
std::string ratio_word(double ratio);

// The same of what was measured: kNotSureYet unless its ± is known to be under half a stop, half of
// what the words tell apart.
std::string ratio_word(const Measure& ratio);

// Of a texture in stops. even < 0.1 ≤ gentle < 0.35 ≤ broken < 0.8 ≤ hard
// Stripes, half and half, are 0.2, 0.7 and 1.6 stops apart at the thresholds.
std::string texture_word(double texture_stops);

// Of a share in deep shadow, for "shadows …". open < 10 % ≤ partly deep < 40 % ≤ deep
std::string shadow_word(double share);

// Of a share clipped, for "highlights …". hold < 0.1 % ≤ a little burnt < 1 % ≤ burnt
std::string clipping_word(double share);

// For each measure, what more or less of it is better for.
struct MeasureDirection {
    const char* measure;
    const char* direction;
};
inline constexpr std::array<MeasureDirection, 7> kDirections = {{
    {"stops_from_camera", "nearer to 0 is nearer to the camera's setting"},
    {"ratios", "more is more contrast, less is softer"},
    {"texture_stops", "more is more broken up"},
    {"patch_cm", "less is finer"},
    {"cover", "more leaves less dark between the patches"},
    {"deep_shadow_share and clipped_share", "less keeps more detail"},
    {"hot_spots.stops", "less leaves the eye on the figure"},
}};

}  // namespace dapple
