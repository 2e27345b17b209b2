// Next-event estimation: a lamp is asked for its direct light from a vertex (E47).
//
// Both the sensor walks, at every vertex, and sheet sampling, from the point that it has drawn on
// cloth, ask lamps in this way. At a meter's receptor there is no surface: ask_lamp_at_receptor().
#pragma once

#include <array>
#include <optional>

#include "transport/connect.h"

namespace dapple {

// What a lamp sends to a vertex, and the densities of the other ways to the same edge.
struct LampAnswer {
    LampLight light;
    Direction wi;  // from the vertex to the lamp, in the vertex's frame
    Direction wi_world{0, 0, 1};
    float distance2 = 0;  // m²
    Spectrum f;           // of the vertex, for radiance
    Connection way;

    // pt d²: turns the density of the lamp's point into one per sr, without the lamp's cosine.
    float drawn() const { return distance2 * light.pdf_towards; }
    // Density with which a walk that leaves the vertex with `pdf` per sr meets this point of the
    // lamp, over the density with which it was drawn. A point lamp cannot be met.
    float met(float pdf, const Emitter& emitter) const {
        return emitter.is_point() ? 0.0F : pdf * light.cos_lamp / drawn();
    }
};

// Uniform numbers `u` choose the point on the lamp. Nothing where the lamp sends no light here, the
// vertex scatters none of it, or the way is blocked.
std::optional<LampAnswer> ask_lamp(const Stage& stage,
                                   Walk& walk,
                                   const Vertex& vertex,
                                   size_t fixture,
                                   const std::array<float, 2>& u);

// The same at a point of a receptor that faces along the vertex's geometric normal: the receptor
// takes light from its front by the cosine, and `f` stays 1. `wi.z` is the cosine to the normal.
std::optional<LampAnswer> ask_lamp_at_receptor(const Stage& stage,
                                               Walk& walk,
                                               const Vertex& vertex,
                                               size_t fixture,
                                               const std::array<float, 2>& u);

}  // namespace dapple
