#include "plausible/bodies/find_stands_in_the_way.h"

#include "geometry/make_attachments.h"
#include "plausible/bodies/crossings.h"
#include "plausible/in_words.h"

namespace dapple {

namespace {

constexpr float kAboveFloor = 0.03F;  // m, on which a stand may stand, such as a cloth or a mat

// What a stand cannot go through. Cloth and capes give way, and glass on the rod is told of already
// (find_cuts.h).
bool stops_a_rod(const StagedSet& set, const Thing& thing) {
    if (thing.kind != ThingKind::kBoard) {
        return thing.kind == ThingKind::kColumn || thing.kind == ThingKind::kHousing;
    }
    return set.scene.boards[static_cast<size_t>(thing.index)].kind == BoardKind::kBounce;
}

std::optional<Doubt> stand_in_the_way(const StagedSet& set, size_t index) {
    const Fixture& f = set.scene.fixtures[index];
    const std::optional<float> floor = floor_below(set.scene.room, f.position);
    if (!floor) return std::nullopt;
    const std::vector<StandRod> rods = stand_rods(f, *floor);
    if (rods.empty()) return std::nullopt;
    const Point& top = rods[0].from.y > rods[0].to.y ? rods[0].from : rods[0].to;
    const Ray down{top, Vec3(0, -1, 0), 0.0F, top.y - *floor - kAboveFloor};
    if (down.t_max <= 0) return std::nullopt;
    const Counts counts = [&](const Thing& thing, const SurfacePoint&) {
        return thing.index != static_cast<int>(index)
                   ? stops_a_rod(set, thing)
                   : thing.kind == ThingKind::kColumn ||
                         (thing.kind == ThingKind::kBoard && stops_a_rod(set, thing));
    };
    Thing thing;
    SurfacePoint at;
    if (!first_counting(set.world, down, counts, thing, at)) return std::nullopt;
    return doubt_at(set.written.fixtures[index].stand,
                    "the rod goes through " + words_of(set, thing, at.material) + ", " +
                        length_text(at.position.y - *floor) +
                        " above the floor; move the fixture beside it, or leave out the stand and "
                        "hang the fixture");
}

}  // namespace

Doubts find_stands_in_the_way(const StagedSet& set) {
    Doubts doubts;
    for (size_t i = 0; i < set.written.fixtures.size(); ++i) {
        if (!set.scene.fixtures[i].stand) continue;
        if (std::optional<Doubt> doubt = stand_in_the_way(set, i)) doubts.push_back(*doubt);
    }
    return doubts;
}

Doubts find_camera_inside(const StagedSet& set) {
    for (const Thing& thing : things_around(set.world, set.scene.camera.position)) {
        // Under water, or in a block of acrylic, a camera is on purpose.
        if (thing.kind == ThingKind::kGlass) continue;
        return {doubt_at(set.written.camera.position,
                         "the camera is inside " + words_of(set, thing) + "; move one of them")};
    }
    return {};
}

}  // namespace dapple
