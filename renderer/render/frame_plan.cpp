#include "render/frame_plan.h"

#include <algorithm>

#include "render/find_merge_cells.h"
#include "render/pixel_walks.h"
#include "render/schedule.h"

namespace dapple {

namespace {

// The meters of a frame: a pass spends little on them, and they see some of its light walks.
constexpr int kMeterWalks = 1024;
constexpr int kLightWalksPerJoined = 8;

// The light walks of each fixture in a usual pass.
std::vector<int> plan_walks(const RenderOptions& options, const Setup& setup) {
    if (options.transport == Transport::kCamera) return light_walks_of_pass(setup, 0, 0);
    const Camera& camera = setup.scene.camera;
    const double pixels = static_cast<double>(camera.width) * camera.height;
    const double per_pixel =
        options.light_walks_per_pixel > 0
            ? options.light_walks_per_pixel
            : std::min(2.0, 0.25 * (1.0 + static_cast<double>(setup.emitters.size())));
    // A pass without glass shall cost little more than its camera walks.
    return light_walks_of_pass(setup, per_pixel * pixels, 0.05);
}

void share_out_walks(const std::vector<int>& usual, uint32_t pass, Setup& setup) {
    for (size_t f = 0; f < usual.size(); ++f) {
        setup.light_walks[f] = light_walks_in_pass(usual[f], pass);
        setup.joined_to_meters[f] =
            (setup.light_walks[f] + kLightWalksPerJoined - 1) / kLightWalksPerJoined;
    }
}

// Whether light can leave a surface of this material in a mirror direction or smoothly refracted.
// Without any such, no photon is ever wanted.
bool may_be_smooth(const Material& material) {
    const bool smooth = square(material.roughness) < kSmoothAlpha;
    switch (material.kind) {
        case MaterialKind::kGlass:
        case MaterialKind::kThinGlass:
        case MaterialKind::kConductor:
        case MaterialKind::kCoated:
            return smooth;
        default:
            return false;
    }
}

// Of the pixels that see a surface, their width there, m; 0 where none does.
float median_pixel_m(const FirstHits& first_hits) {
    std::vector<float> sizes;
    for (const float size : first_hits.footprint_m) {
        if (size > 0) sizes.push_back(size);
    }
    if (sizes.empty()) return 0;
    const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
    std::nth_element(sizes.begin(), middle, sizes.end());
    return *middle;
}

// 0 where there is nothing to merge.
float merge_radius_of(const RenderOptions& options, const Setup& setup, float pixel_m) {
    const std::vector<Material>& materials = setup.scene.materials;
    const bool merges =
        options.transport == Transport::kFull || options.transport == Transport::kPartition;
    if (!merges || setup.emitters.empty() ||
        std::none_of(materials.begin(), materials.end(), may_be_smooth)) {
        return 0;
    }
    return static_cast<float>(options.merge_radius_px) * pixel_m;
}

void set_schedule(const FramePlan& frame, const Wavelengths& wavelengths, Stage& stage) {
    const double first_px = frame.footprint_px;
    stage.footprint_overlap = footprint_overlap(first_px, stage.pass);
    stage.dispersion_limit = dispersion_limit(first_px, stage.pass);
    // What is scattered on from there spreads far wider; a photon is seen where it lies.
    stage.dispersion_limit_m = 10.0F * stage.dispersion_limit * frame.pixel_m;
    stage.photon_dispersion_limit_m = 0.25F * stage.dispersion_limit * frame.pixel_m;
    stage.soft_splat_px = footprint_radii(first_px, stage.pass).unknown;
    stage.wavelength_coordinate = WavelengthCoordinate(wavelengths);
}

// Shares the set-up's walks out for this pass.
Stage make_stage(FramePlan& frame, const PassMaterials& materials, uint32_t pass) {
    share_out_walks(frame.light_walks, pass, frame.setup);
    return frame.setup.stage(materials, frame.seed, pass);
}

}  // namespace

FramePlan::FramePlan(const Scene& scene, const World& world, const RenderOptions& options)
    : seed(options.seed),
      footprint_px(options.footprint_px),
      setup(scene, world, options.aims_light_walks),
      light_walks(plan_walks(options, setup)),
      first_hits(look_first(scene, world, setup.lens)),
      pixel_walks(count_pixel_walks(scene, first_hits)),
      pixel_m(median_pixel_m(first_hits)),
      first_merge_radius(merge_radius_of(options, setup, pixel_m)) {
    setup.max_bounces = options.max_bounces;
    setup.partition = options.transport == Transport::kPartition;
    setup.meter_walks = kMeterWalks;
    if (first_merge_radius > 0) {
        merge_cells = find_merge_cells(setup, first_hits, first_merge_radius);
    }
}

PassPlan::PassPlan(FramePlan& frame, uint32_t pass)
    : wavelengths(make_pass_wavelengths(frame.seed, pass)),
      materials(frame.setup.materials, wavelengths),
      merge_radius(frame.first_merge_radius * shrink_of_pass(pass)),
      footprints(footprint_radii(frame.footprint_px, pass)),
      stage(make_stage(frame, materials, pass)) {
    set_schedule(frame, wavelengths, stage);
    if (merge_radius > 0) stage.merge_area = kPiF * square(merge_radius);
    stage.merge_cells = &frame.merge_cells;
}

}  // namespace dapple
