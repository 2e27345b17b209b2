// What `dapple plan` tells of a set: its fixtures as a list to pack and rig by, the load on each
// circuit, and what to take care of. Metres, radians, watts, amperes.
#pragma once

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
    std::vector<MetOnAxis> meets;      // along its axis: glass and cloth, then what ends the way
    std::optional<double> beam_angle;  // rad; none where the beam is no cone
    double lumens = 0;                 // that leave it: after dimmer and gel
    double peak_candela = 0;
    double cct_k = 0;  // of the light that leaves it
    double duv = 0;
    Gel gel;
    double dimmer = 1;
    std::optional<double> power_w;
    Supply supply = Supply::kMains;
    std::optional<double> current_a;  // mains with a power
    std::string circuit;              // "": not named
};

struct CircuitLoad {
    std::string name;  // "": all mains fixtures that name none
    std::vector<std::string> fixtures;
    double power_w = 0;
    double current_a = 0;
    int without_power = 0;        // fixtures that do not tell their power
    std::optional<double> share;  // of what the circuit may carry
};

struct Caution {
    std::string kind;    // heat overhead glare load
    std::string about;   // a fixture or a circuit
    std::string what;    // "hangs 2.6 m up"
    std::string advice;  // the same for all of a kind, but for few
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
