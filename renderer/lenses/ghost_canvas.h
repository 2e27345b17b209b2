// Draws the light of a lamp's sheet of rays (ghost_sheet.h) on the pixels of a picture.
//
// A cell between four rays is drawn as points between them, about one for each pixel, so all its
// light arrives wherever the sheet folds. Whether rims and blades let a point pass is decided for
// the point, so edges are as sharp as the pixels. A value is
//   L = 4 N² E / (π T)                                                                      (E126)
// with E the illuminance on the film, lx, and T what the lens passes along its axis: the picture
// shows the luminance of what it sees, as if the lens lost nothing (definition of the f-number).
#pragma once

#include <array>
#include <vector>

#include "lenses/ghost_sheet.h"
#include "lenses/star_kernel.h"

namespace dapple {

inline constexpr size_t kMostLensGroups = 2;  // light groups of one lamp

// XYZ of each group per lux of the lamp, in each of the eight bands.
struct LampColour {
    size_t groups = 1;
    std::array<std::array<Xyz, kSpectrumSize>, kMostLensGroups> bands{};
};

using GroupXyz = std::array<glm::vec3, kMostLensGroups>;

// A part of a canvas, px; the last column and row are not in it.
struct CanvasRect {
    int x0 = 0, y0 = 0, x1 = 0, y1 = 0;
    bool is_empty() const { return x0 >= x1 || y0 >= y1; }
};

struct GhostCanvas {
    PixelGrid pixels;
    size_t groups = 1;
    std::vector<GroupXyz> values;  // cd/m², rows from the top
    CanvasRect used;               // beyond it all values are 0

    GhostCanvas(const PixelGrid& grid, size_t group_count);
    void add(const GhostCanvas& other);
    // A lamp that is `radius` px wide on the film is a blur.
    void blur(double radius);
    void use(const CanvasRect& rect);  // widens `used`
    void clear(size_t group_count);
};

// What the canvas got from one sheet: how bright, where and how large, in its pixels.
struct DrawnGhost {
    double light = 0;  // sum of Y over the canvas
    DVec2 middle{0};
    double diameter = 0;  // of an even disc with the same spread
};

struct SheetDrawing {
    const RealLens& lens;
    const LightRoute& route;
    double azimuth = 0;  // of the lamp, rad, in the camera's frame
    double lux = 0;      // at the front element, facing the lamp
    const LampColour& colour;
    double least = 0;  // cd/m²; what is dimmer everywhere is not drawn
};

// Adds the light in the bands [first_band, last_band).
DrawnGhost draw_sheet(const SheetDrawing& drawing,
                      const GhostSheet& sheet,
                      size_t first_band,
                      size_t last_band,
                      GhostCanvas& canvas);

}  // namespace dapple
