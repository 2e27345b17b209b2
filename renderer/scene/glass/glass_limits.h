// Which glass objects can be made: limits that keep walls apart and outlines simple.
//
// The limits leave room for the heel, fillet, shoulder and rim of
// geometry/glassware/make_glass_forms.h, and allow all glass that is blown or pressed. Lengths in
// metres, angles in radians.
#pragma once

#include <string>

#include "scene/scene.h"

namespace dapple {

inline bool is_vessel(GlassForm form) {
    switch (form) {
        case GlassForm::kJar:
        case GlassForm::kBottle:
        case GlassForm::kTumbler:
        case GlassForm::kDemijohn:
        case GlassForm::kCarafe:
            return true;
        default:
            return false;
    }
}

// Whether a pattern can be cut into the form: the side of a vessel or a rod, the front of a pane.
inline bool takes_surface(GlassForm form) {
    return is_vessel(form) || form == GlassForm::kRod || form == GlassForm::kPane;
}

// What is wrong with the object's pattern, bubbles or liquid; "" if nothing is, or if it has none.
std::string surface_problem(const GlassObject& object);
std::string bubble_problem(const GlassObject& object);
std::string fill_problem(const GlassObject& object);

// What is wrong with the object in any way; "" if it can be made.
std::string glass_problem(const GlassObject& object);

}  // namespace dapple
