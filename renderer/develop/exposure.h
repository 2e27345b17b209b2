// Exposure as a hand meter and a camera count it (ISO 2720:1974).
//
//   EV100 = log2(N²/t) - log2(S/100)                                                  (E147)
//   E_metered = C N²/(t S)        lx, incident light, flat receptor, C = 250 lx       (E148)
//                                 (dome: C = 330 lx; the standard has 320 to 540)
//   L_white = E_metered/π = (C/π) N²/(t S)     cd/m², a perfect white in that light    (E149)
//   L_metered = K N²/(t S)        cd/m², reflected light, K = 12.5 cd/m²               (E150)
//   L_saturation = √2 L_white     where a sensor with the headroom of ISO 12232:2019 is full (E151)
//
// N f-number, t exposure time in s, S ISO speed. A picture is in exposure units: luminance divided
// by L_white, so that an 18 % card in the metered light reads 0.18.
#pragma once

#include <string>

#include "scene/scene.h"

namespace dapple {

inline constexpr double kIncidentCalibration = 250.0;               // C, lx
inline constexpr double kDomeCalibration = 330.0;                   // C of a dome, lx
inline constexpr double kReflectedCalibration = 12.5;               // K, cd/m²
inline constexpr double kSaturationHeadroom = 1.41421356237309515;  // half a stop

double exposure_value(double f_number, double shutter_s, double iso);       // E147, at ISO 100
double metered_illuminance(double f_number, double shutter_s, double iso);  // E148, lx
double white_luminance(double f_number, double shutter_s, double iso);      // E149, cd/m²
double metered_luminance(double f_number, double shutter_s, double iso);    // E150, cd/m²

double white_luminance(const Camera& camera);
double exposure_value(const Camera& camera);

// "f/4, 1/60 s, ISO 800"
std::string exposure_text(const Camera& camera);

// The f-number that a hand meter shows in this light: E148 solved for N.
double metered_f_number(double illuminance,
                        double shutter_s,
                        double iso,
                        double calibration = kIncidentCalibration);

// Brightness ratio in stops: log2(ratio); -infinity for 0.
double stops_from_ratio(double ratio);

// As hand meters show it: the full stop below, and tenths of a stop: "5.6 + 3/10", "8".
std::string f_stop_text(double f_number);

}  // namespace dapple
