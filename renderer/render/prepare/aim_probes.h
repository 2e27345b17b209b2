// What the rays that aim light walks at glass (aim_emitters.h) and at cloth have found, kept for a
// later frame of much the same scene. There it may be out of date, which affects only the noise.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "fixtures/aim.h"
#include "fixtures/emitter.h"
#include "scene/scene.h"
#include "transport/lit_sheets.h"

namespace dapple {

// How a lamp stands, how wide its beam is and how much light it has: what its probes depend on.
struct LampPose {
    // `lumens`: after dimmer and gel.
    LampPose(const Fixture& fixture, double lumens);

    FixtureForm form;
    Point position;
    Frame frame;
    std::array<float, 4> angles;  // rad: beam and field, without and with an attachment
    Vec2 size;                    // m
    bool has_file;
    double lumens;

    bool is_same_as(const LampPose& other) const;
};

// One glass object as one lamp's probes found it.
struct ProbedWindow {
    Bounds object;
    std::optional<AimWindow> window;  // nothing: the object is too near the lamp
    std::vector<double> flux;         // into the object by cell, lm; empty without a window
};

struct LampProbes {
    LampPose pose;
    std::vector<ProbedWindow> windows;
    std::optional<double> share_on_cloth;  // of the beam; nothing: not needed

    const ProbedWindow* find(const Bounds& object) const;
};

// What is kept of an earlier frame's lamps.
struct KeptLamps {
    std::vector<LampProbes> probes;  // by fixture; empty: nothing is kept
    LitSheets sheets;
};

// The probes of these lamps before any ray: their poses.
std::vector<LampProbes> poses_of(const Scene& scene, const std::vector<Emitter>& emitters);

// By fixture; all false if the number of lamps differs.
std::vector<bool> same_lamps(const std::vector<LampProbes>& a, const std::vector<LampProbes>& b);

}  // namespace dapple
