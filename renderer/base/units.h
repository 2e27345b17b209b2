// Constants and unit changes. The program computes in metres, radians, seconds, nanometres for
// wavelengths and photometric units for light. scene/ converts degrees and millimetres.
#pragma once

#include <cstdint>
#include <limits>

namespace dapple {

inline constexpr double kPi = 3.14159265358979323846;
inline constexpr float kPiF = 3.14159265358979323846F;
inline constexpr float kInvPiF = 0.31830988618379067154F;
inline constexpr float kInfinity = std::numeric_limits<float>::infinity();

// Luminous efficacy of monochromatic light at 540 THz, lm/W (SI, defining constant).
inline constexpr double kLuminousEfficacy = 683.0;

// Second radiation constant hc/k of Planck's law, nm K (SI, from defining constants).
inline constexpr double kSecondRadiation = 1.4387768775e7;

constexpr double radians_from_degrees(double degrees) {
    return degrees * (kPi / 180.0);
}
constexpr double degrees_from_radians(double radians) {
    return radians * (180.0 / kPi);
}
constexpr double metres_from_mm(double mm) {
    return mm * 1e-3;
}

}  // namespace dapple
