// What every walk of one pass reads, and nothing that it writes.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"
#include "materials/bsdf.h"
#include "scene/scene.h"
#include "spectrum/wavelengths.h"
#include "transport/lens.h"
#include "transport/lit_sheets.h"
#include "transport/merge_cells.h"
#include "transport/photon_map.h"
#include "transport/receptor.h"
#include "transport/start_media.h"

namespace dapple {

// c = 1/λ², µm⁻², of a pass's wavelengths. Indices of glass are nearly straight in it.
struct WavelengthCoordinate {
    Spectrum c;
    int shortest = 0, longest = 0;  // wavelengths
    float span = 0;

    WavelengthCoordinate() = default;
    explicit WavelengthCoordinate(const Wavelengths& wavelengths) {
        for (int j = 0; j < kSpectrumSize; ++j) {
            c[j] = 1e6F / square(wavelengths.nm[j]);
            if (c[j] > c[shortest]) shortest = j;
            if (c[j] < c[longest]) longest = j;
        }
        span = c[shortest] - c[longest];
    }
    float operator[](int j) const { return c[j]; }
};

struct Stage {
    const Scene& scene;
    const World& world;
    const Lens& lens;
    const std::vector<Emitter>& emitters;
    const std::vector<int>& light_walks;  // per fixture, in one pass; 0 switches the technique off
    const PassMaterials& materials;
    uint64_t seed = 1;
    uint32_t pass = 0;
    int max_bounces = 64;     // surfaces that scatter a path between lamp and sensor
    StartMedia start;         // default: all in air
    bool makes_frame = true;  // light walks are joined to the lens

    // Meters: sensors beside the lens. Only the first few light walks of each fixture are joined to
    // them; of all of them the meters take what comes straight or through smooth glass.
    std::span<const Receptor> receptors{};
    int meter_walks = 0;                      // per meter
    std::span<const int> joined_to_meters{};  // per fixture

    // Footprints of splats: each walk stands for this multiple of its share of the directions (κ of
    // E68); 0: for a point.
    float footprint_overlap = 0;
    // Light that glass has dispersed by less than this in the frame, px, lands in all wavelengths.
    float dispersion_limit = 0;
    // The same on a surface, m, for what is scattered on from there, and for photons.
    float dispersion_limit_m = 0;
    float photon_dispersion_limit_m = 0;
    WavelengthCoordinate wavelength_coordinate{};

    // Radius of the disc that a light walk is spread over in the frame which was scattered on its
    // way, px (soft_splat.h).
    float soft_splat_px = 0;

    // Photon merging: the area it is done over, m²; 0: none. Photons are kept where light walks are
    // given a list, and gathered where there is a map.
    float merge_area = 0;
    const PhotonMap* photons = nullptr;
    const MergeCells* merge_cells = nullptr;  // none: all photons are kept
    // The merging area times the share of photons that is kept there.
    float merge_area_at(const Point& p) const {
        return merge_cells ? merge_area * merge_cells->share(p) : merge_area;
    }

    // Every path by one technique alone (partition.h), to check the weights by.
    bool partition = false;
    const LitSheets* sheets = nullptr;  // none: cloth is found by walks that meet it

    // Light walks for one meter walk: those that may make a path of which nothing but smooth glass
    // lies between lamp and receptor, and those that may make another.
    float light_walks_per_meter_walk(size_t fixture, bool only_smooth) const {
        const int count = only_smooth ? light_walks[fixture] : joined_to_meters[fixture];
        return static_cast<float>(count) / static_cast<float>(meter_walks);
    }
};

// What the lens passes of the radiance in the medium around it (E63).
inline Spectrum through_port(const Stage& stage) {
    Spectrum passed(1.0F);
    const MaterialId medium = stage.start.lens.current();
    if (medium == kNoMaterial) return passed;
    const Spectrum& n = stage.materials.index(medium);
    for (int j = 0; j < kSpectrumSize; ++j) passed[j] = 1.0F / square(n[j]);
    return passed;
}

}  // namespace dapple
