// A walk from a sensor: from the lens or from a meter's receptor. At every vertex it adds the
// direct light of the fixtures that the vertex asks (next-event estimation). At a lamp that it
// meets it adds the lamp's light.
#pragma once

#include <span>

#include "transport/sensor_numbers.h"
#include "transport/technique_weights.h"
#include "transport/walk.h"

namespace dapple {

// The kind of sensor where a walk starts.
enum class SensorEnd { kLens, kReceptor, kPointReceptor };

// The cloth at the vertex where the present edge began, for sheet sampling (E89).
struct LastSheet {
    int sheet = -1;  // -1: that vertex is not on cloth, or the lens sees it first
    Vec2 barycentric{0};
    float join = 0;  // the sum `join` at that vertex
    Asked asked;     // what the vertex before that one asks
};

// What the part of the surfaces around a vertex says (surface_cells.h). A receptor's asks all
// lamps.
struct SensorPlace {
    Asked asked;  // the probabilities in the weights
    Asked asks;   // those that are used: more where only shiny vertices are before this one
    int receiver_cell = -1;  // of a vertex that is connected to stored vertices; else -1
};

struct SensorWalk {
    SensorEnd end = SensorEnd::kLens;
    Walk walk;
    LastSheet last_sheet;
    SensorPlace before;  // of the vertex where the present edge began
    // Of a camera walk: how many times a light walk counts if it was scattered before it is joined
    // to the lens at the camera walk's first vertex (soft_splat.h).
    float soft_weight = 1;

    bool from_lens() const { return end == SensorEnd::kLens; }
    // The sums at the present vertex, for light of a fixture whose stored vertices have this flux.
    SensorSums sums(float stored_flux) const {
        return {.weights = from_lens() ? walk.weights : walk.weights.without_merging(),
                .soft_weight = soft_weight,
                .rough_after_first = walk.history.rough_after_first(),
                .stored_flux = stored_flux};
    }
};

// Where the light that a walk collects is added: one spectrum per fixture, at the pass's
// wavelengths, per unit of the group spectra.
struct SensorLight {
    std::span<Spectrum> by_fixture;
    // Light of haze. Of that before the first surface: what comes straight from small lamps, and
    // all that a walk finds which this haze has scattered. Of all other haze: what is seen on the
    // first surface or through it. Empty: these are part of `by_fixture`.
    std::span<Spectrum> near_glow;
    std::span<Spectrum> far_glow;
    std::span<Spectrum> glow_on_surface;

    bool keeps_glow_apart() const { return !near_glow.empty(); }
    std::span<Spectrum> beyond_first() const {
        return keeps_glow_apart() ? glow_on_surface : by_fixture;
    }
    // For a walk with this history.
    std::span<Spectrum> of(const PathHistory& history) const {
        return history.any_haze() ? beyond_first() : by_fixture;
    }
};

// Follows the walk from its first ray to its end. A walk from the lens splits in two at most
// `splits` times.
void follow_sensor_walk(const Stage& stage,
                        SensorWalk& sensor,
                        SensorNumbers& numbers,
                        const SensorLight& light,
                        int splits = 1);

}  // namespace dapple
