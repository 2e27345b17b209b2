#include "render/prepare/frame_setup.h"

#include <algorithm>

#include "film/rim_pixels.h"
#include "render/prepare/find_asked_lamps.h"
#include "render/prepare/find_connections.h"
#include "render/prepare/find_glints.h"
#include "render/prepare/find_lamp_faces_seen.h"
#include "render/prepare/find_merge_cells.h"
#include "render/prepare/pixel_walks.h"

namespace dapple {

namespace {

size_t count_dark(const std::vector<bool>& dark) {
    return static_cast<size_t>(std::count(dark.begin(), dark.end(), true));
}

// Light walks of each fixture in every pass but the first.
std::vector<int> usual_light_walks(const RenderOptions& options, const Setup& setup) {
    if (options.transport == Transport::kCamera) return light_walks_of_pass(setup, 0, 0);
    const Camera& camera = setup.scene.camera;
    const double pixels = static_cast<double>(camera.width) * camera.height;
    const auto lamps = static_cast<double>(setup.emitters.size() - count_dark(options.dark));
    const double per_pixel = options.light_walks_per_pixel > 0
                                 ? options.light_walks_per_pixel
                                 : std::min(2.0, 0.25 * (1.0 + lamps));
    // Without glass, light walks help little, so they must not make a pass much slower.
    constexpr double kShareWithoutGlass = 0.05;
    const bool is_quick = options.pilots != nullptr;
    return light_walks_of_pass(setup, per_pixel * pixels, kShareWithoutGlass, is_quick);
}

// Whether light can leave a surface of this material by a focusing event. A scene without such
// materials gathers no photons.
bool may_focus(const Material& material) {
    const bool smooth = square(material.roughness) < kSmoothAlpha;
    switch (material.kind) {
        case MaterialKind::kGlass:
            return true;
        case MaterialKind::kThinGlass:
        case MaterialKind::kConductor:
        case MaterialKind::kCoated:
            return smooth;
        default:
            return false;
    }
}

// Median width of a pixel on the surface that it sees, m; 0 if no pixel sees a surface.
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

// Merging radius of the first pass, m; 0 if there is nothing to merge.
float merge_radius_of(const RenderOptions& options, const Setup& setup, float pixel_m) {
    const std::vector<Material>& materials = setup.scene.materials;
    const bool merges =
        options.transport == Transport::kFull || options.transport == Transport::kPartition;
    if (!merges || setup.emitters.empty() ||
        std::none_of(materials.begin(), materials.end(), may_focus)) {
        return 0;
    }
    return static_cast<float>(options.merge_radius_px) * pixel_m;
}

FirstHits find_all_first_hits(const Scene& scene,
                              const World& world,
                              const Lens& lens,
                              WorkWatch& watch) {
    FirstHits hits = find_first_hits(scene, world, lens, watch);
    hits.lamp = find_lamp_faces_seen(scene, world, lens);
    return hits;
}

// The pilots that this frame starts from; nullptr: it makes its own.
const Pilots* earlier_pilots(const Scene& scene, const RenderOptions& options) {
    const Pilots* const earlier = options.pilots.get();
    return earlier && earlier->lamps.probes.size() == scene.fixtures.size() ? earlier : nullptr;
}

KeptLamps earlier_lamps(const Scene& scene, const RenderOptions& options) {
    const Pilots* const earlier = earlier_pilots(scene, options);
    return earlier ? earlier->lamps : KeptLamps();
}

}  // namespace

FrameSetup::FrameSetup(const Scene& scene,
                       const World& world,
                       const RenderOptions& options,
                       WorkWatch& watch)
    : seed(options.seed),
      footprint_px(options.footprint_px),
      setup(scene, world, options.aims_light_walks, earlier_lamps(scene, options), options.dark),
      light_walks(usual_light_walks(options, setup)),
      first_hits(find_all_first_hits(scene, world, setup.lens, watch)),
      fine(options.finer > 1 ? find_fine_points(setup, options.finer, options.kept_sight, watch)
                             : FinePoints()),
      seen(options.finer > 1 ? make_coarser(fine.seen, fine.step)
                             : find_seen_points(setup, first_hits, watch)),
      camera_plan{.walks = count_pixel_walks(scene, first_hits), .glints = {}},
      pixel_m(median_pixel_m(first_hits)),
      first_merge_radius(merge_radius_of(options, setup, pixel_m)) {
    setup.max_bounces = options.max_bounces;
    setup.partition = options.transport == Transport::kPartition;
    if (!options.reads_meters) setup.receptors.clear();
    if (const Pilots* const earlier = earlier_pilots(scene, options)) {
        pilots = carried_over(*earlier, {setup.probes, setup.sheets}, light_walks);
    } else {
        pilots = find_pilots(options, watch);
    }
    // The search does not know the ways through a lens of glass.
    if (options.finds_glints && !setup.lens.is_glass()) {
        camera_plan.glints = find_glints(setup, first_hits, camera_plan.walks, watch);
    }
}

std::shared_ptr<const Pilots> FrameSetup::find_pilots(const RenderOptions& options,
                                                      WorkWatch& watch) const {
    auto found = std::make_shared<Pilots>();
    found->lamps = {setup.probes, setup.sheets};
    found->light_walks = light_walks;
    watch.start_step(WorkStep::kPilotWalks, 3);
    watch.next_block_or_throw();
    // The partition, which checks the rest, stays simple: its vertices ask all lamps.
    if (!setup.partition) found->asked = find_asked_lamps(setup);
    watch.next_block_or_throw();
    const bool connects =
        options.transport == Transport::kFull || options.transport == Transport::kWalks;
    LightPilot pilot;
    if (connects || first_merge_radius > 0) pilot = trace_light_pilot(setup, light_walks);
    if (connects) {
        const Camera& camera = setup.scene.camera;
        const double pixels = static_cast<double>(camera.width) * camera.height;
        found->connections = find_connections(setup, pilot, pixels);
    }
    watch.next_block_or_throw();
    if (first_merge_radius > 0) {
        found->merge_cells = find_merge_cells(setup, first_hits, pilot, first_merge_radius);
    }
    return found;
}

}  // namespace dapple
