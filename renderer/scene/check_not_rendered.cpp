// What is read and checked, and not rendered yet. Delete a line of note_all when its part is built.
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/scene_parts.h"

namespace dapple {

namespace {

void note(const Place& place, const std::string& key, Problems& problems) {
    problems.note(place, key, "is read and checked but not rendered yet");
}

void note_all(const SetDescription& set, Problems& problems) {
    for (const StandInDescription& s : set.stand_ins) note(s.place, s.label, problems);
    for (const WindowDescription& w : set.windows) note(w.place, w.label, problems);
}

void check_stand_in(const StandInDescription& stand_in, Problems& problems) {
    checked_point(stand_in.position, problems);
    checked_range(stand_in.turn_deg, 0, -3600, 3600, problems);
    checked_range(stand_in.height_m, 1.7, 0.3, 2.5, problems);
    checked_colour(stand_in.skin, Rgb(0.3F), kMaxReflectance, problems);
    const SheetDescription& dress = stand_in.dress.sheet;
    const double transmission = checked_range(dress.transmission, 0, 0, 1, problems);
    checked_range(dress.spread_deg, kSheetSpread, 0, 90, problems);
    checked_range(dress.direct, 0, 0, transmission, problems);
}

void check_window(const WindowDescription& window,
                  bool room_is_known,
                  const Scene& scene,
                  Problems& problems) {
    checked_positive(window.luminance_cd_m2, 1, 1e9, problems);
    checked_range(window.cct_k, 5600, 1000, 25000, problems);
    if (!check_written(window.surface, "give the name of a surface of the room", problems)) return;
    if (room_is_known) find_surface(window.surface, scene, problems);
}

}  // namespace

void check_not_rendered(const SetDescription& set, const Scene& scene, Problems& problems) {
    for (const StandInDescription& stand_in : set.stand_ins) check_stand_in(stand_in, problems);
    const bool room_is_known = !set.room.given || !scene.room.empty();
    for (const WindowDescription& window : set.windows) {
        check_window(window, room_is_known, scene, problems);
    }
    note_all(set, problems);
}

}  // namespace dapple
