// Builds meters and regions from [[meter]] and [[region]].
#include <map>

#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/part_builders.h"

namespace dapple {

namespace {

// Names must differ, because statistics list meters and regions by name.
void check_unique(const Field<std::string>& name,
                  std::map<std::string, Place>& names,
                  Problems& problems) {
    if (!name.given) return;
    const auto [earlier, is_new] = names.emplace(name.value, name.place);
    if (is_new) return;
    problems.add(name.place,
                 name.key,
                 "is used twice, first in line " + std::to_string(earlier->second.line) +
                     "; names must differ");
}

void build_rect(const RegionDescription& description,
                const Camera& camera,
                Region& region,
                Problems& problems) {
    const auto& [x0, y0, x1, y1] = description.rect_px.value;
    if (0 <= x0 && x0 < x1 && x1 <= camera.width && 0 <= y0 && y0 < y1 && y1 <= camera.height) {
        region.has_rect = true;
        region.rect = glm::ivec4(x0, y0, x1, y1);
        return;
    }
    problems.add(description.rect_px.place,
                 description.rect_px.key,
                 "must be [x0, y0, x1, y1] with x0 < x1 and y0 < y1 inside the frame of " +
                     std::to_string(camera.width) + " x " + std::to_string(camera.height) + " px");
}

Region build_region(const RegionDescription& description,
                    const Scene& scene,
                    bool room_is_known,
                    Problems& problems) {
    Region region;
    region.name = name_or_label(description.name, description);
    if (!description.surface.written && !description.rect_px.written) {
        problems.add(description.place, description.label, "needs surface or rect_px, or both");
    }
    if (description.surface.given && room_is_known) {
        region.surface = find_surface(description.surface, scene, problems);
    }
    if (description.rect_px.given) build_rect(description, scene.camera, region, problems);
    return region;
}

Meter build_meter(const MeterDescription& description, Problems& problems) {
    Meter meter;
    meter.name = name_or_label(description.name, description);
    meter.place = description.position.place;
    meter.position = checked_point(description.position, problems);
    meter.facing =
        checked_aim(description.facing, description.position, "the meter faces", problems);
    const Triple& aim = description.facing.value;
    meter.aim = Point(aim[0], aim[1], aim[2]);
    meter.receptor =
        checked_word<ReceptorKind>(description.receptor,
                                   {{"flat", ReceptorKind::kFlat}, {"dome", ReceptorKind::kDome}},
                                   ReceptorKind::kFlat,
                                   problems);
    meter.diameter = static_cast<float>(metres_from_mm(
        checked_range(description.receptor_mm, kReceptorDiameterMm, 0, kMostReceptorMm, problems)));
    if (!description.size_m.given) return meter;
    meter.size = checked_size(description.size_m, Vec2(1), 100, problems);
    meter.diameter = 0;
    if (meter.receptor == ReceptorKind::kDome || description.receptor_mm.given) {
        problems.add(description.size_m.place,
                     description.size_m.key,
                     "reads the mean over a flat area; leave out receptor = \"dome\" and "
                     "receptor_mm, or size_m");
    }
    return meter;
}

}  // namespace

void build_measures(const SetDescription& set, Scene& scene, Problems& problems) {
    std::map<std::string, Place> meters;
    for (const MeterDescription& description : set.meters) {
        check_unique(description.name, meters, problems);
        scene.meters.push_back(build_meter(description, problems));
    }
    const bool room_is_known = !set.room.given || !scene.room.empty();
    std::map<std::string, Place> regions;
    for (const RegionDescription& description : set.regions) {
        check_unique(description.name, regions, problems);
        scene.regions.push_back(build_region(description, scene, room_is_known, problems));
    }
}

}  // namespace dapple
