// What is read and checked, and not rendered yet. Delete a line of note_all when its part is built.
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
}

}  // namespace

void check_not_rendered(const SetDescription& set, Problems& problems) {
    note_all(set, problems);
}

}  // namespace dapple
