// The proportions of made glassware: the lines and arcs in the outline of a vessel of given size.
//
// The set gives height, diameter and wall. The other measures (heel, fillet, punt, shoulder, neck,
// lip) follow common practice, no source. The diameter is the outside one, over the crests of ribs;
// the wall is the thinnest place, under the troughs. Frame: the object's own.
#pragma once

#include "geometry/glassware/make_glass_lathe.h"
#include "geometry/glassware/make_glass_outline.h"
#include "scene/scene.h"

namespace dapple {

struct Vessel {
    Outline glass;   // from the axis under the base round to the axis in the cavity
    Outline cavity;  // its last part: from where the rim's rounding ends down to the axis
    Relief relief;
    double wall = 0;          // m
    double inner_bottom = 0;  // m, lowest height of the cavity
    double inner_top = 0;     // m, where the rim's rounding begins
};

// Jar, bottle, tumbler, demijohn or carafe.
Vessel make_vessel(const GlassObject& object);

// A solid of revolution without an inside. The rod stands on its end and has rounded edges.
struct Solid {
    Outline glass;
    Relief relief;
};
Solid make_rod(const GlassObject& object);

// The pattern of a pane's front face, faded out towards its edges.
Relief make_pane_relief(const GlassObject& object);

// A solid ball that rests on the origin.
Outline make_ball_outline(double diameter);

}  // namespace dapple
