// Everything that the walks of one pass read. Walks write nothing here.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"
#include "materials/bsdf.h"
#include "materials/haze_medium.h"
#include "scene/scene.h"
#include "spectrum/wavelengths.h"
#include "transport/asked_lamps.h"
#include "transport/connection_table.h"
#include "transport/haze/haze_aids.h"
#include "transport/lens.h"
#include "transport/lit_sheets.h"
#include "transport/merge_cells.h"
#include "transport/photon_map.h"
#include "transport/receptor.h"
#include "transport/start_media.h"
#include "transport/stored_vertices.h"

namespace dapple {

// c = 1/λ², µm⁻², of a pass's wavelengths. The index of glass is nearly a linear function of c.
struct WavelengthCoordinate {
    Spectrum c;
    Spectrum nm{550.0F};
    int shortest = 0, longest = 0;  // index of the shortest and of the longest wavelength
    float span = 0;                 // c of the shortest minus c of the longest

    WavelengthCoordinate() = default;
    explicit WavelengthCoordinate(const Wavelengths& wavelengths) {
        for (int j = 0; j < kSpectrumSize; ++j) {
            c[j] = 1e6F / square(wavelengths.nm[j]);
            nm[j] = wavelengths.nm[j];
            if (c[j] > c[shortest]) shortest = j;
            if (c[j] < c[longest]) longest = j;
        }
        span = c[shortest] - c[longest];
    }
    float operator[](int j) const { return c[j]; }
};

// The walks of one pass.
struct PassWalks {
    std::vector<int> light;             // light walks per fixture; 0: no light walks
    std::vector<int> joined_to_meters;  // light walks that are joined to meters, per fixture
    int per_meter = 0;                  // meter walks per meter
    // Light walks that leave beams in haze, per fixture: the first ones. Empty: none.
    std::vector<int> beams;
};

class BeamMap;

struct Stage {
    const Scene& scene;
    const World& world;
    const Lens& lens;
    const std::vector<Emitter>& emitters;
    const PassMaterials& materials;
    PassWalks walks;
    uint64_t seed = 1;
    uint32_t pass = 0;
    int max_bounces = 64;     // surfaces that scatter a path between lamp and sensor
    StartMedia start{};       // default: all in air
    bool makes_frame = true;  // light walks are joined to the lens

    // Meters are sensors beside the lens. Only the first few light walks of each fixture are joined
    // to them (PassWalks::joined_to_meters). A meter also counts every light walk that falls on its
    // receptor straight from the lamp or through smooth glass.
    std::span<const Receptor> receptors{};

    // Footprints of splats: the solid angle of a walk's footprint over the solid angle of one walk
    // (κ of E76); 0: each splat is a point.
    float footprint_overlap = 0;
    // Dispersal limits (E79). A light walk stands for all wavelengths where glass has dispersed
    // them by less than this: in the frame, px; on a surface from which the light scatters on, m;
    // in a photon, m.
    float dispersion_limit = 0;
    float dispersion_limit_m = 0;
    float photon_dispersion_limit_m = 0;
    WavelengthCoordinate wavelength_coordinate{};

    const HazeMedium* haze = nullptr;     // nullptr: clear air
    const HazeAids* haze_aids = nullptr;  // not without haze
    const BeamMap* beams = nullptr;       // nullptr: beams are not gathered
    const BeamMap* wide_beams = nullptr;  // fewer and wider, for legs that the lens does not see
    float beam_radius = 0;                // m
    // Whether light of the fixture that a mirror or smooth glass sends into haze is gathered from
    // beams, and by no other technique.
    bool gathers_beams_of(size_t fixture) const { return beams && walks.beams[fixture] > 0; }

    // Radius in pixels of the disc used for light walks that have already scattered (soft_splat.h).
    float soft_splat_px = 0;

    // The area over which photons are merged, m²; 0: photons are not merged.
    float merge_area = 0;
    const PhotonMap* photons = nullptr;       // nullptr: photons are not gathered
    const PhotonMap* wide_photons = nullptr;  // the same with the wide radius of merge_cells.h
    const MergeCells* merge_cells = nullptr;  // nullptr: all photons are kept
    // Whether photons at `p` are gathered from the wide disc.
    bool merges_wide(const Point& p) const { return merge_cells && merge_cells->is_wide(p); }
    // The merging area times the share of photons that is kept at `p`.
    float merge_area_at(const Point& p) const {
        if (!merge_cells) return merge_area;
        const float wide = merges_wide(p) ? square(MergeCells::kWide) : 1.0F;
        return merge_area * wide * merge_cells->share(p);
    }

    bool partition = false;             // each path is made by one technique alone (partition.h)
    const LitSheets* sheets = nullptr;  // nullptr: no sheet sampling
    const AskedLamps* asked = nullptr;  // nullptr: every vertex asks all lamps
    // Camera walks are connected to stored vertices of light walks; nullptr: they are not.
    const ConnectionTable* connections = nullptr;
    const StoredVertices* stored = nullptr;
    float usual_light_walks = 1;  // light walks of a usual pass over those of this pass
    // κ of E95 per lm of stored_flux(). Cells of -1 are not connected.
    float connection_density(int receiver_cell, int light_cell) const {
        return connections ? connections->density(receiver_cell, light_cell) : 0.0F;
    }
    float stored_flux(size_t fixture) const {
        return connections ? usual_light_walks * connections->stored_flux(fixture) : 0.0F;
    }
    // What a sensor walk's vertex asks. `seen_first`: the lens sees the vertex first.
    Asked asked_at(const SurfacePoint& at, bool seen_first) const {
        return asked ? asked->at(at.position, at.geometric, seen_first) : Asked{};
    }

    float light_walks(size_t fixture) const { return static_cast<float>(walks.light[fixture]); }
    // Light walks that can make the same path as a meter walk, for each meter walk. If only smooth
    // glass is between the lamp and the receptor, these are all light walks of the fixture. Else
    // they are the light walks that are joined to meters.
    float light_walks_per_meter_walk(size_t fixture, bool only_smooth) const {
        const int count = only_smooth ? walks.light[fixture] : walks.joined_to_meters[fixture];
        return static_cast<float>(count) / static_cast<float>(walks.per_meter);
    }
};

// The share of the radiance in the medium around the lens that the lens passes (E73).
inline Spectrum through_port(const Stage& stage) {
    Spectrum passed(1.0F);
    const MaterialId medium = stage.start.lens.current();
    if (medium == kNoMaterial) return passed;
    const Spectrum& n = stage.materials.index(medium);
    for (int j = 0; j < kSpectrumSize; ++j) passed[j] = 1.0F / square(n[j]);
    return passed;
}

}  // namespace dapple
