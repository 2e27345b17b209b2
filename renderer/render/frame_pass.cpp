#include "render/frame_pass.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

// A pass of a frame traces few meter walks, and only some of its light walks are joined to meters.
constexpr int kMeterWalks = 1024;
constexpr int kLightWalksPerJoined = 8;

// Beams in haze, ours. A pixel meets as many as their number times their radius, and each costs
// time. So wider beams are fewer.
constexpr float kBeamRadiusPx = 2.5F;     // in the first pass
constexpr double kBeamsTimesRadius = 10;  // m
constexpr double kFewestBeams = 100;
constexpr double kMostBeams = 4000;

float beam_radius_of(const FrameSetup& frame, uint32_t pass) {
    return kBeamRadiusPx * frame.pixel_m * beam_radius_factor(pass);
}

// The first light walks of each fixture, in proportion to its light walks.
std::vector<int> beam_walks(const std::vector<int>& light_walks, float beam_radius) {
    double all = 1;
    for (const int walks : light_walks) all += walks;
    const double wanted =
        std::clamp(kBeamsTimesRadius / static_cast<double>(beam_radius), kFewestBeams, kMostBeams);
    const double share = std::min(1.0, wanted / all);
    std::vector<int> beams;
    for (const int walks : light_walks) {
        beams.push_back(static_cast<int>(std::ceil(share * walks)));
    }
    return beams;
}

PassWalks walks_of_pass(const FrameSetup& frame, uint32_t pass) {
    PassWalks walks;
    walks.per_meter = kMeterWalks;
    for (const int usual : frame.light_walks) {
        const int light = light_walks_in_pass(usual, pass);
        walks.light.push_back(light);
        walks.joined_to_meters.push_back((light + kLightWalksPerJoined - 1) / kLightWalksPerJoined);
    }
    if (frame.setup.haze && frame.first_merge_radius > 0) {
        walks.beams = beam_walks(walks.light, beam_radius_of(frame, pass));
    }
    return walks;
}

void set_schedule(const FrameSetup& frame, const Wavelengths& wavelengths, Stage& stage) {
    const double first_px = frame.footprint_px;
    stage.footprint_overlap = footprint_overlap(first_px, stage.pass);
    stage.dispersion_limit = dispersion_limit(first_px, stage.pass);
    // Limits on surfaces (E79). Light that scatters on from a surface spreads far wider than the
    // limit of a splat, so its limit is larger. A photon is seen at its own place, so its limit is
    // smaller.
    stage.dispersion_limit_m = 10.0F * stage.dispersion_limit * frame.pixel_m;
    stage.photon_dispersion_limit_m = 0.25F * stage.dispersion_limit * frame.pixel_m;
    stage.soft_splat_px = splat_radii_of_pass(first_px, stage.pass).unknown;
    stage.wavelength_coordinate = WavelengthCoordinate(wavelengths);
    stage.beam_radius = beam_radius_of(frame, stage.pass);
}

}  // namespace

FramePass::FramePass(const FrameSetup& frame, uint32_t pass)
    : wavelengths(make_pass_wavelengths(frame.seed, pass)),
      materials(frame.setup.materials, wavelengths),
      merge_radius(frame.first_merge_radius * merge_radius_factor(pass)),
      splat_radii(splat_radii_of_pass(frame.footprint_px, pass)),
      glow_spread(glow_spread_of_pass(frame.footprint_px, frame.first_hits.width, pass)),
      stage(frame.setup.stage(materials, walks_of_pass(frame, pass), frame.seed, pass)) {
    set_schedule(frame, wavelengths, stage);
    if (merge_radius > 0) stage.merge_area = kPiF * square(merge_radius);
    const Pilots& pilots = *frame.pilots;
    stage.merge_cells = &pilots.merge_cells;
    if (pilots.asked) stage.asked = &*pilots.asked;
    if (pilots.connections) stage.connections = &*pilots.connections;
    stage.usual_light_walks = usual_light_walks_per(pass);
}

}  // namespace dapple
