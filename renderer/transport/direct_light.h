// Next-event estimation: the direct light of a lamp at a vertex, by a point sampled on the lamp
// (E88).
//
// Sensor walks use it at every vertex, and sheet sampling at the point that it has drawn on cloth.
// A point of a meter's receptor is no surface; it has sample_direct_light_at_receptor().
#pragma once

#include <array>
#include <optional>

#include "transport/connect.h"

namespace dapple {

// Light from one sampled point of a lamp to a vertex.
struct DirectLight {
    LampLight light;
    Direction wi;  // from the vertex to the lamp, in the vertex's frame
    Direction wi_world{0, 0, 1};
    float distance2 = 0;  // m²
    Spectrum f;           // of the vertex, for radiance
    Connection way;       // the edge between the vertex and the lamp

    // pt d²: the density of the lamp's point per sr at the vertex, times the lamp's cosine.
    float pt_d2() const { return distance2 * light.pdf_towards; }
    // Density with which a walk that leaves the vertex with `pdf` per sr meets this point of the
    // lamp, over the density of the sampled point. No walk meets a point lamp.
    float met(float pdf, const Emitter& emitter) const {
        return emitter.is_point() ? 0.0F : pdf * light.cos_lamp / pt_d2();
    }
};

// The uniform numbers `u` choose the point on the lamp. Nothing if the lamp sends no light to the
// vertex, if the vertex scatters none of it, or if the way is blocked.
std::optional<DirectLight> sample_direct_light(const Stage& stage,
                                               Walk& walk,
                                               const Vertex& vertex,
                                               size_t fixture,
                                               const std::array<float, 2>& u);

// The same at a point in haze, whose phase function is left out: `f` is 1, and `wi` is not set.
std::optional<DirectLight> sample_direct_light_in_haze(const Stage& stage,
                                                       Walk& walk,
                                                       const Vertex& vertex,
                                                       size_t fixture,
                                                       const std::array<float, 2>& u);

// The same at a point of a receptor that faces along the vertex's geometric normal. Only light from
// the front counts; `wi.z` is its cosine to the normal, and `f` is 1.
std::optional<DirectLight> sample_direct_light_at_receptor(const Stage& stage,
                                                           Walk& walk,
                                                           const Vertex& vertex,
                                                           size_t fixture,
                                                           const std::array<float, 2>& u);

}  // namespace dapple
