// What is read and checked, and not rendered yet. Delete a line of note_all when its part is built.
#include "scene/checks.h"
#include "scene/defaults.h"
#include "scene/scene_parts.h"

namespace dapple {

namespace {

void note(const Place& place, const std::string& key, Problems& problems) {
    problems.note(place, key, "is read and checked but not rendered yet");
}

bool is_closed(const Field<Quad>& barn_doors) {
    return barn_doors.given && barn_doors.value != Quad{90, 90, 90, 90};
}

void note_all(const SetDescription& set, Problems& problems) {
    for (const FixtureDescription& f : set.fixtures) {
        const bool has_gel = (f.gel.shift_mired.value != 0) || (f.gel.stops.value != 0);
        if (has_gel) note(f.gel.place, f.gel.label, problems);
        if (f.photometry.given) note(f.photometry.place, f.photometry.key, problems);
        if (is_closed(f.barn_doors_deg)) {
            note(f.barn_doors_deg.place, f.barn_doors_deg.key, problems);
        }
    }
    for (const WindowDescription& w : set.windows) note(w.place, w.label, problems);
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
    const bool room_is_known = !set.room.given || !scene.room.empty();
    for (const WindowDescription& window : set.windows) {
        check_window(window, room_is_known, scene, problems);
    }
    note_all(set, problems);
}

}  // namespace dapple
