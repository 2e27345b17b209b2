// The light that a sensor walk collects at one vertex, by each technique.
#pragma once

#include <span>

#include "transport/inner_connection.h"
#include "transport/photon_map.h"
#include "transport/sensor_walk.h"

namespace dapple {

class SensorVisit {
  public:
    // The collected light is added to `by_fixture`, one per fixture.
    SensorVisit(const Stage& stage,
                SensorWalk& sensor,
                const Vertex& vertex,
                std::span<Spectrum> by_fixture)
        : stage_(stage), sensor_(sensor), vertex_(vertex), by_fixture_(by_fixture) {}

    // The light of the lamp that the walk has met (E87).
    void add_emission() const;
    // All light collected at a vertex on a rough surface.
    void add_light(const SensorPlace& place, SensorNumbers& numbers) const;

  private:
    // Next-event estimation of one fixture (E88).
    void add_direct_light(size_t fixture,
                          const SensorPlace& place,
                          const std::array<float, 2>& u) const;
    // One fixture's light by way of a point sampled on cloth that it lights (E89).
    void add_sheet_light(size_t fixture, const SensorPlace& place, const SheetNumbers& u) const;
    // The light of one stored vertex of a light walk (E95).
    void add_connected_light(const SensorPlace& place, const SensorNumbers& numbers) const;
    float balance_of(const StoredVertex& y,
                     const InnerConnection& inner,
                     const SensorPlace& place) const;
    // Photons within a disc of the merging area in the vertex's plane (E93).
    void add_merged_photons() const;
    bool gathers_photons() const;
    // The contribution of one photon, without its flux and the kernel; its weight is included.
    Spectrum merged(const Photon& photon) const;

    SensorSums sums(size_t fixture) const { return sensor_.sums(stage_.stored_flux(fixture)); }
    // Light walks of the fixture that can make the same path, for each sensor walk.
    float light_walks(size_t fixture, bool only_smooth) const;
    // Density with which sheet sampling samples the present vertex, or the vertex where the present
    // edge began, over the density of the walk's own step to that vertex (E89).
    float sheet_density_here(size_t fixture) const;
    float sheet_density_before(size_t fixture) const;

    const Stage& stage_;
    SensorWalk& sensor_;
    const Vertex& vertex_;
    std::span<Spectrum> by_fixture_;
};

}  // namespace dapple
