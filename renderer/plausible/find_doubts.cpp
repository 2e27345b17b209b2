#include "plausible/find_doubts.h"

#include <algorithm>

#include "plausible/beams/find_lost_beams.h"
#include "plausible/beams/find_shaded_faces.h"
#include "plausible/beams/find_stopped_beams.h"
#include "plausible/beams/find_unmet.h"
#include "plausible/bodies/find_cuts.h"
#include "plausible/bodies/find_stands_in_the_way.h"
#include "plausible/camera/find_camera_doubts.h"
#include "plausible/camera/find_hidden_faces.h"
#include "plausible/camera/find_lens_doubts.h"
#include "plausible/find_twin_names.h"
#include "plausible/light/find_burnt_figures.h"
#include "plausible/light/find_exposure_doubts.h"
#include "plausible/light/find_light_doubts.h"
#include "plausible/room/find_hanging_vessels.h"
#include "plausible/room/find_outside.h"
#include "plausible/room/find_room_scale.h"
#include "plausible/room/find_unheld.h"

namespace dapple {

namespace {

// What is outside the room or inside something has to be moved anyway.
Doubts not_doubted_yet(Doubts found, const Doubts& earlier) {
    std::erase_if(found, [&](const Doubt& doubt) {
        return std::any_of(earlier.begin(), earlier.end(), [&](const Doubt& other) {
            return other.what.key == doubt.what.key &&
                   other.what.place.line == doubt.what.place.line;
        });
    });
    return found;
}

}  // namespace

Doubts find_doubts(const StagedSet& set) {
    Doubts doubts = find_room_scale(set);
    if (!doubts.empty()) return doubts;  // everything else follows from it
    const auto add = [&](const Doubts& found) {
        doubts.insert(doubts.end(), found.begin(), found.end());
    };
    const std::vector<Mover> movers = find_movers(set);
    const SeenFrame frame = see_frame(set);
    const QuickLight light(set);
    add(find_twin_names(set.written));
    add(find_outside(set, movers));
    add(find_cuts(set, movers));
    add(find_stands_in_the_way(set));
    add(find_floating_figures(set));
    add(find_unheld_fixtures(set, frame));
    add(find_stopped_beams(set, movers, light));
    add(not_doubted_yet(find_shaded_faces(set, light), doubts));
    add(find_lost_beams(set, movers, light));
    add(find_edge_on_cloths(set, light));
    // What should stand on a table needs no beam.
    add(not_doubted_yet(find_hanging_vessels(set, movers, light, true), doubts));
    add(not_doubted_yet(find_unmet(set, movers, light), doubts));
    add(not_doubted_yet(find_hanging_vessels(set, movers, light, false), doubts));
    add(find_lens_doubts(set));
    Doubts view = find_camera_inside(set);
    if (view.empty()) view = find_view_doubts(set, frame);
    if (view.empty()) view = find_shutter_doubts(set);
    add(view);
    add(find_hidden_faces(set, frame));
    if (view.empty()) add(find_light_doubts(set, frame, light));  // else the picture is another
    const bool is_as_meant = std::all_of(doubts.begin(), doubts.end(), [](const Doubt& doubt) {
        return doubt.what.key.starts_with("region");
    });
    if (is_as_meant) add(find_burnt_figures(set, frame, light));
    std::stable_sort(doubts.begin(), doubts.end(), [](const Doubt& a, const Doubt& b) {
        return a.what.place.line < b.what.place.line;
    });
    return doubts;
}

std::string to_string(const Doubt& doubt) {
    return to_string(doubt.what) + (doubt.is_guess ? " (a guess)" : "");
}

}  // namespace dapple
