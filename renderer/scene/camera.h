// The camera and its lens, in metres and radians.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "math/vec.h"

namespace dapple {

enum class LensCoating { kNone, kSingle, kMulti };

// One row of a lens table: a refracting surface, or the aperture stop. mm.
struct LensRow {
    double radius = 0;     // of curvature, above 0 if its centre is behind it; 0: plane
    double thickness = 0;  // to the next row
    double index = 1;      // of what follows, at 587.6 nm
    double abbe = 0;       // of what follows; 0: not known, no dispersion
    double free_diameter = 0;
    bool is_stop = false;
};

// The glass of the lens and what is beside it: what makes ghosts, stars and veil.
struct CameraLens {
    std::string name;           // "normal", "wide", "portrait", or the table's path; "": none
    std::vector<LensRow> rows;  // of the user's own table
    LensCoating coating = LensCoating::kMulti;
    int blades = 8;            // of the stop; 0: round
    float blade_turn = 0;      // rad
    float hood_length = 0;     // m, before the front element; 0: none
    double veiling_glare = 0;  // index, 0 to 1
    bool vignetting = false;   // the picture darkens towards its corners as the lens does
    int dust = 0;              // specks on the glass
    int scratches = 0;
    uint64_t dust_seed = 1;
    bool draws = false;  // the picture itself is drawn through the glass

    bool is_glass() const { return !name.empty(); }
    bool is_there() const { return is_glass() || veiling_glare > 0; }
};

struct Camera {
    Point position{0};
    Point aim{0, 0, 1};           // the point that it looks at
    Frame frame;                  // s right, t up, n forwards
    float focal_length = 0.05F;   // m
    Vec2 sensor{0.036F, 0.024F};  // m, the part that the frame uses
    int width = 960;              // px
    int height = 640;
    float f_number = 4;
    float shutter = 1.0F / 60;  // s
    float iso = 800;
    float focus_distance = 0;  // m; 0: everything sharp
    float white_k = 5600;      // K, the light in which a white card is white
    CameraLens lens;
};

}  // namespace dapple
