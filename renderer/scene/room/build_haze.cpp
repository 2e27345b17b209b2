// Builds the haze from [haze] and [[haze_box]].
#include <algorithm>
#include <cmath>

#include "scene/checks.h"
#include "scene/part_builders.h"

namespace dapple {

namespace {

// What a dark thing must differ by from the light around it to be seen, at the distance that is
// called the visibility.
constexpr double kSeenContrast = 0.02;

// Limits, our own: air cleaner than that of any hired room, and fog in which a hand is dim.
constexpr double kLeastVisibility = 0.5;   // m
constexpr double kMostVisibility = 10000;  // m
constexpr double kMostHeight = 1000;       // m
constexpr double kMostBox = 100;           // m
// Back and forward limits of g; nearer to 1 the lobe would be narrower than any droplet's here.
constexpr double kMostForward = 0.95;

// The extinction for a visibility (Koschmieder 1924), 1/m.                                (E49)
float checked_extinction(const Field<double>& visibility, Problems& problems) {
    const double metres =
        checked_range(visibility, 100, kLeastVisibility, kMostVisibility, problems);
    return static_cast<float>(-std::log(kSeenContrast) / metres);
}

Vec3 checked_half(const Field<Triple>& size, Problems& problems) {
    if (!size.given) return Vec3(1);
    const auto [x, z, height] = size.value;
    for (const double length : size.value) {
        if (length > 0 && length <= kMostBox) continue;
        problems.add(size.place,
                     size.key,
                     "has " + number_text(length) + "; all three must be above 0, up to " +
                         number_text(kMostBox));
        return Vec3(1);
    }
    return 0.5F * Vec3(static_cast<float>(x), static_cast<float>(height), static_cast<float>(z));
}

HazeBox build_box(const HazeBoxDescription& description, Problems& problems) {
    HazeBox box;
    box.name = name_or_label(description.name, description);
    check_written(description.size_m, "give [along x, along z, height]", problems);
    box.half = checked_half(description.size_m, problems);
    box.centre = checked_point(description.position, problems) + Vec3(0, box.half.y, 0);
    box.turn = checked_radians(description.turn_deg, 0, -360, 360, problems);
    check_written(description.visibility_m, "give how far one sees in its middle", problems);
    box.extinction = checked_extinction(description.visibility_m, problems);
    return box;
}

}  // namespace

void build_haze(const SetDescription& set, Scene& scene, Problems& problems) {
    Haze& haze = scene.haze;
    const HazeDescription& all = set.haze;
    haze.forward =
        static_cast<float>(checked_range(all.forward, 0.7, -kMostForward, kMostForward, problems));
    if (all.visibility_m.written) haze.extinction = checked_extinction(all.visibility_m, problems);
    if (all.height_m.written) {
        haze.height = static_cast<float>(checked_positive(all.height_m, 1, kMostHeight, problems));
    }
    if (all.given && !all.visibility_m.written) {
        if (set.haze_boxes.empty()) {
            problems.add(all.place, all.label, "needs visibility_m: how far one sees, in metres");
        }
        note_unused(all.height_m, "the haze has no visibility_m", problems);
    }
    for (const HazeBoxDescription& box : set.haze_boxes) {
        haze.boxes.push_back(build_box(box, problems));
    }
    if (set.haze_boxes.size() > Haze::kMostBoxes) {
        problems.add(set.haze_boxes[Haze::kMostBoxes].place,
                     set.haze_boxes[Haze::kMostBoxes].label,
                     "is one too many; a set may have 8 haze_box tables");
    }
}

}  // namespace dapple
