// The packing list that `dapple plan` prints: the fixtures to pack and rig, the load on each
// circuit, and cautions. Metres, radians, watts, amperes.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "scene/scene.h"

namespace dapple {

struct MetOnAxis {
    std::string name;
    double distance = 0;  // m, along the axis
};

struct PackedFixture {
    std::string name;
    FixtureForm form = FixtureForm::kSpot;
    SourceKind source = SourceKind::kLed;
    Point position{0};
    std::optional<double> height;  // m, above the lowest surface below it
    std::optional<Point> aim;
    std::vector<MetOnAxis> meets;      // along its axis: glass and cloth, then what blocks it
    std::optional<double> beam_angle;  // rad; none if the beam is not a cone
    double full_lumens = 0;            // without dimmer and gel
    double full_cct_k = 0;             // likewise
    double lumens = 0;                 // after dimmer and gel
    double peak_candela = 0;           // likewise
    double cct_k = 0;                  // likewise
    double duv = 0;
    Gel gel;
    double dimmer = 1;
    std::optional<double> power_w;
    Supply supply = Supply::kMains;
    std::optional<double> current_a;  // of mains fixtures whose power is given
    std::string circuit;              // "": not given
};

// Whether the light has another colour than that of the lamp at full: by a gel, or dimmed tungsten.
inline bool has_other_colour(const PackedFixture& f) {
    constexpr double kSeen = 5;  // K; less is rounding
    return f.full_cct_k > 0 && std::abs(f.cct_k - f.full_cct_k) >= kSeen;
}

struct CircuitLoad {
    std::string name;  // "": all mains fixtures without a circuit
    std::vector<std::string> fixtures;
    double power_w = 0;
    double current_a = 0;
    int without_power = 0;        // number of fixtures whose power is not given
    std::optional<double> share;  // of the most that the circuit may carry
};

struct Caution {
    std::string kind;    // heat overhead glare load haze
    std::string about;   // name of a fixture or a circuit, "haze"
    std::string what;    // "hangs 2.6 m up"
    std::string advice;  // mostly the same for all of a kind
};

struct PackingList {
    std::string title;
    double volts = 0;
    std::optional<double> circuit_a;
    std::vector<PackedFixture> fixtures;
    std::vector<CircuitLoad> circuits;
    std::vector<Caution> cautions;
};

}  // namespace dapple
