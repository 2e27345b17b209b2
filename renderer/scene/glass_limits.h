// Which glass objects can be made: the proportions that keep walls apart and outlines simple.
//
// The limits leave room for the heel, fillet, shoulder and rim of geometry/make_glass_forms.h; they
// are wider than anything blown or pressed. Lengths in metres, angles in radians.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>

#include "scene/scene.h"

namespace dapple {

inline bool is_vessel(GlassForm form) {
    return form == GlassForm::kJar || form == GlassForm::kBottle || form == GlassForm::kTumbler;
}

// What is wrong with a vessel's size; "" where nothing is.
inline std::string vessel_problem(const GlassObject& object) {
    const bool bottle = object.form == GlassForm::kBottle;
    const float side = object.wall + (object.ribs > 0 ? object.rib_depth : 0.0F);
    const float base = object.wall * (object.form == GlassForm::kTumbler ? 3.0F : 1.5F);
    if (!(object.height > 0 && object.diameter > 0 && object.wall > 0)) {
        return "height, diameter and wall must be above 0";
    }
    if (object.ribs < 0 || object.ribs == 1 || object.ribs == 2 || object.ribs > 256) {
        return "ribs must be 0, or from 3 to 256";
    }
    if (object.ribs > 0 && !(object.rib_depth > 0)) return "ribs need a depth above 0";
    if (!(side <= (bottle ? 0.1F : 0.2F) * object.diameter)) {
        return bottle ? "wall and rib depth together must be at most a tenth of the diameter"
                      : "wall and rib depth together must be at most a fifth of the diameter";
    }
    if (bottle && !(object.height >= 0.7999F * object.diameter)) {
        return "a bottle must be at least 0.8 times as high as wide";
    }
    if (!(std::max(base, side) <= 0.4F * object.height)) {
        return "the height must be at least 2.5 times the base and the side are thick";
    }
    return "";
}

// What is wrong with what a vessel is filled with; "" where nothing is or where it is empty.
inline std::string fill_problem(const GlassObject& object) {
    if (object.liquid == kNoMaterial) return "";
    if (!is_vessel(object.form)) return "only a jar, bottle or tumbler can be filled";
    if (!(object.liquid_level > 0 && object.liquid_level <= 1)) {
        return "the level of a filling must be above 0 and at most 1";
    }
    constexpr double kMostTilt = radians_from_degrees(60.0);  // beyond it little would stay in
    if (!(std::abs(object.tilt) <= kMostTilt + 1e-6)) {
        return "a filled vessel can be tilted by at most 60 degrees";
    }
    return "";
}

// What keeps this object from being made; "" where nothing does.
inline std::string glass_problem(const GlassObject& object) {
    if (!is_finite(object.position) || !std::isfinite(object.turn) || !std::isfinite(object.tilt)) {
        return "position, turn and tilt must be finite numbers";
    }
    std::string problem;
    switch (object.form) {
        case GlassForm::kMesh:
            if (object.mesh < 0) problem = "the mesh is missing";
            break;
        case GlassForm::kPane:
            if (!(object.width > 0 && object.height > 0 && object.wall > 0)) {
                problem = "width, height and wall must be above 0";
            }
            break;
        case GlassForm::kBall:
            if (!(object.diameter > 0)) problem = "the diameter must be above 0";
            break;
        default:
            problem = vessel_problem(object);
    }
    return problem.empty() ? fill_problem(object) : problem;
}

}  // namespace dapple
