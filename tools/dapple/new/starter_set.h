// The first set file of a room: what the tape says, a camera, a figure, one key, and what else a
// set may have as comments.
#pragma once

#include <optional>
#include <string>

namespace dapple {

// Metres.
struct StarterRoom {
    std::string title;
    double width = 5, depth = 7, height = 3;  // along x, along z, up
    double distance = 3;                      // from the camera to the figure
    double lens_mm = 50;
    std::optional<double> figure = 1.70;  // its height; none: no figure
    bool is_seated = false;               // on a stool
    bool is_portrait = false;             // the frame is taller than wide
    double reflectance = 0.4;             // of the walls
};

// Why the room cannot be: "the camera is 9 m from the figure; the room is 7 m long". "": it can.
std::string starter_problem(const StarterRoom& room);

// The set file. dapple check finds nothing wrong with it.
std::string starter_set_text(const StarterRoom& room);

// "Old dance hall" → "old-dance-hall"
std::string file_stem_for(const std::string& title);

}  // namespace dapple
