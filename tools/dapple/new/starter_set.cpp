#include "new/starter_set.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <cstdio>

namespace dapple {

namespace {

constexpr double kFromWall = 0.5;                  // m, the least that things keep from a wall
constexpr double kBehindFigure = 1.0;              // m, room behind the figure where there is some
constexpr double kLongSide = 36, kShortSide = 24;  // mm, of the sensor
constexpr double kAir = 0.05;                      // m, the least above a head in the frame
constexpr double kMeteredLux = 300;                // f/4, 1/60 s, ISO 800, C = 250 lx

// To two decimals.
std::string metres(double value) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.2f", std::round(100 * value) / 100 + 0.0);
    return text.data();
}

std::string shortest_text(double value) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%g", value);
    return text.data();
}

std::string point(double x, double y, double z) {
    return "[" + metres(x) + ", " + metres(y) + ", " + metres(z) + "]";
}

// A line with a comment, in one column with the others.
std::string line(const std::string& code, const char* comment) {
    constexpr size_t kColumn = 31;
    return code + std::string(code.size() < kColumn ? kColumn - code.size() : 1, ' ') + "# " +
           comment + "\n";
}

// A seated figure, in shares of its height (scene/boards_and_figures/figure_places.h).
constexpr double kSeatHeight = 0.235;
constexpr double kFeetBeforeSeat = 0.265;
constexpr double kLowerFace = 0.245;
constexpr double kEyes = 0.935, kChest = 0.72;
constexpr double kStoolAcross = 0.34;  // m

// Where the things of the set are.
struct Places {
    double figure_z;  // of its trunk and its face
    double camera_z, camera_y;
    double key_x, key_y, key_z;
    double face_y;  // what the camera and the key look at: a face, or the middle of a wall
};

// The key stands to the left, as far in front of the camera as it can without being in the frame.
void place_key(const StarterRoom& room, Places& at) {
    const double tangent = 0.5 * (room.is_portrait ? kShortSide : kLongSide) / room.lens_mm;
    at.key_y = std::min(room.height - 0.4, at.face_y + 0.6);
    for (const double share : {0.5, 0.35, 0.2, 0.1, 0.0}) {
        const double ahead = share * room.distance;
        at.key_x = -std::max(1.15 * tangent * ahead + 0.4, 0.5 * room.distance * (1 - share) + 0.3);
        at.key_x = std::max(at.key_x, -0.5 * room.width + 0.4);
        at.key_z = at.camera_z - ahead;
        if (-at.key_x > 1.1 * tangent * ahead + 0.3) return;
    }
}

Places places_of(const StarterRoom& room) {
    Places at{};
    const double spare = room.depth - room.distance - kFromWall;  // behind the figure
    const double behind = std::min(spare, std::max(kBehindFigure, 0.35 * spare));
    at.figure_z = -0.5 * room.depth + behind;
    at.camera_z = at.figure_z + room.distance;
    at.camera_y = std::min(1.5, 0.6 * room.height);
    const double eyes = room.is_seated ? kEyes - kLowerFace : kEyes;
    at.face_y = room.figure ? eyes * *room.figure : 0.5 * room.height;
    if (room.is_seated) at.camera_y = std::min(at.camera_y, at.face_y);
    place_key(room, at);
    return at;
}

std::string room_text(const StarterRoom& room) {
    return "[room]\n" +
           line("size_m = [" + metres(room.width) + ", " + metres(room.depth) + ", " +
                    metres(room.height) + "]",
                "along x, along z, height: from your tape") +
           line("reflectance = " + shortest_text(room.reflectance),
                "how light the walls are: black 0.05, brick 0.3, white 0.8") +
           "# The floor is at y = 0. x and z count from the middle of the room; the camera looks "
           "towards -z.\n\n" +
           line("[[surface]]", "any wall on its own: wall_back, wall_left, wall_right, ...") +
           "name = \"floor\"\nreflectance = 0.2\n\n";
}

// Its chest, or its face if the head would be cut off.
std::string camera_aim(const StarterRoom& room) {
    if (!room.figure) return "back wall";
    const double height = room.is_portrait ? kLongSide : kShortSide;
    const double above_aim = 0.5 * height / room.lens_mm * room.distance;
    return (1 - kChest) * *room.figure + kAir > above_aim ? "figure face" : "figure";
}

std::string camera_text(const StarterRoom& room, const Places& at) {
    return "[camera]\nposition = " + point(0, at.camera_y, at.camera_z) + "\n" +
           line("aim = \"" + camera_aim(room) + "\"", "a thing by its name, or a point [x, y, z]") +
           "focal_length_mm = " + shortest_text(room.lens_mm) +
           (room.is_portrait ? "\nsensor_mm = [24, 36]\nframe_px = [640, 960]"
                             : "\nsensor_mm = [36, 24]\nframe_px = [960, 640]") +
           "\nf_number = \"f/4\"\n" +
           (room.figure
                ? line("focus_m = \"figure face\"", "or by tape: 3.2; without it, all is sharp")
                : "") +
           "shutter_s = \"1/60\"\niso = 800\n" +
           line("white_k = 4300", "the light in which white looks white") + "\n";
}

std::string stool_text(const StarterRoom& room, const Places& at) {
    return line("[[column]]", "what it sits on: 0.235 of its height high, 0.265 behind its feet") +
           "name = \"stool\"\nposition = " + point(0, 0, at.figure_z) +
           "\ndiameter_m = " + metres(kStoolAcross) +
           "\nheight_m = " + metres(kSeatHeight * *room.figure) + "\nreflectance = 0.2\n\n";
}

std::string figure_text(const StarterRoom& room, const Places& at) {
    if (!room.figure) return "";
    const double feet_z = at.figure_z + (room.is_seated ? kFeetBeforeSeat * *room.figure : 0);
    return line("[[stand_in]]", "a lay figure in place of the sitter") + "name = \"figure\"\n" +
           line("position = " + point(0, 0, feet_z), "on the floor between its feet") +
           (room.is_seated ? "pose = \"seated\"\n" : "") +
           "facing = \"camera\"\nheight_m = " + metres(*room.figure) + "\n\n" +
           (room.is_seated ? stool_text(room, at) : "") +
           line("[[meter]]", "a light meter before the face, on the side of the key") +
           "name = \"face, key side\"\nposition = \"figure face\"\nfacing = \"key\"\n"
           "receptor = \"dome\"\n\n";
}

std::string key_text(const StarterRoom& room, const Places& at) {
    const double distance = std::hypot(at.key_x, at.key_y - at.face_y, at.key_z - at.figure_z);
    std::array<char, 16> lux{};
    std::snprintf(lux.data(), lux.size(), "%.0f", kMeteredLux);
    return line("[[fixture]]", "dapple kit lists typical ones: kit = \"led-spot-40\"") +
           "name = \"key\"\nform = \"spot\"\nsource = \"led\"\ncct_k = 4300\nposition = " +
           point(at.key_x, at.key_y, at.key_z) +
           "\naim = " + (room.figure ? "\"figure face\"" : "\"back wall\"") +
           "\nbeam_angle_deg = 40\n" + line("source_mm = 20", "larger: softer shadows") +
           line(
               "lux = { value = " + std::string(lux.data()) + ", at_m = " + metres(distance) + " }",
               "what a meter reads at that distance; or output_lm") +
           line("dimmer = 1.0", "or \"50%\", \"-1 stop\"") + "\n";
}

constexpr const char* kMore =
    "[[region]]                     # where you want to know how the light is broken up\n"
    "name = \"back wall\"\nsurface = \"wall_back\"\n\n"
    "# More to try: take the # away and move things.\n#\n"
    "# [[glass]]                    # in front of a lamp it throws ripples\n"
    "# name = \"jar\"\n# kit = \"jar-ribbed\"\n# position = %s\n#\n"
    "# [[diffuser]]                 # softens the key\n"
    "# name = \"cloth\"\n# clip_to = \"key\"\n# cloth = \"quarter\"\n#\n"
    "# [[bounce]]                   # a white board that fills the shadows\n"
    "# name = \"fill board\"\n# kit = \"board-white\"\n# position = %s\n# aim = \"%s\"\n";

std::string more_text(const StarterRoom& room, const Places& at) {
    const double share = 0.3;  // of the way from the key
    const std::string jar = point(at.key_x * (1 - share),
                                  at.key_y + share * (at.face_y - at.key_y) - 0.12,
                                  at.key_z + share * (at.figure_z - at.key_z));
    const std::string board = point(std::min(0.5 * room.width - 0.4, 1.3), 1.2, at.figure_z + 0.6);
    std::array<char, 2048> text{};
    std::snprintf(text.data(),
                  text.size(),
                  kMore,
                  jar.c_str(),
                  board.c_str(),
                  room.figure ? "figure" : "back wall");
    return text.data();
}

// A title for a TOML text.
std::string toml_quoted(const std::string& title) {
    std::string text = "\"";
    for (const char c : title) {
        if (c == '"' || c == '\\') text += '\\';
        text += static_cast<unsigned char>(c) < 0x20 || c == 0x7f ? ' ' : c;
    }
    return text + "\"";
}

}  // namespace

std::string starter_problem(const StarterRoom& room) {
    for (const double side : {room.width, room.depth, room.height}) {
        if (side >= 1.5 && side <= 300) continue;
        return "a side of the room is " + metres(side) + " m; must be from 1.5 to 300 m";
    }
    if (room.distance < 0.5) return "the camera must be 0.5 m or more from what it looks at";
    if (room.distance > room.depth - 2 * kFromWall) {
        return "the camera is " + metres(room.distance) + " m from what it looks at; the room is " +
               metres(room.depth) + " m long, so at most " + metres(room.depth - 2 * kFromWall) +
               " m";
    }
    if (!(room.reflectance >= 0 && room.reflectance <= 1)) return "walls reflect from 0 to 1";
    if (room.lens_mm < 8 || room.lens_mm > 1000) return "the lens must be from 8 to 1000 mm";
    if (room.figure && (*room.figure < 0.5 || *room.figure > std::min(2.5, room.height - 0.1))) {
        return "the figure is " + metres(*room.figure) +
               " m tall; must be from 0.5 to 2.5 m and fit under the ceiling";
    }
    return "";
}

std::string starter_set_text(const StarterRoom& room) {
    const Places at = places_of(room);
    return "# " + file_stem_for(room.title) +
           ".toml: a set for dapple. Lengths are in metres unless the key ends in _mm; \"80 cm\" "
           "and\n# \"6 ft 2 in\" are understood too. Render it: dapple render " +
           file_stem_for(room.title) + ".toml\ntitle = " + toml_quoted(room.title) + "\n\n" +
           room_text(room) + camera_text(room, at) + figure_text(room, at) + key_text(room, at) +
           more_text(room, at);
}

std::string file_stem_for(const std::string& title) {
    std::string stem;
    for (const char c : title) {
        const auto u = static_cast<unsigned char>(c);
        if (std::isalnum(u) != 0 || u >= 0x80) {
            stem += static_cast<char>(std::tolower(u));
        } else if (!stem.empty() && stem.back() != '-') {
            stem += '-';
        }
    }
    while (!stem.empty() && stem.back() == '-') stem.pop_back();
    return stem.empty() ? "set" : stem.substr(0, 80);
}

}  // namespace dapple
