#include "scene/glass/glass_limits.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace dapple {

namespace {

struct VesselLimits {
    const char* name;
    float side;              // thickest side, of the diameter
    const char* side_words;  // the same, for messages
    float base;              // thickness of the base, of the wall
    float lowest;            // height, of the diameter
    float highest;
};

VesselLimits vessel_limits(GlassForm form) {
    switch (form) {
        case GlassForm::kBottle:
            return {.name = "bottle",
                    .side = 0.1F,
                    .side_words = "a tenth",
                    .base = 1.5F,
                    .lowest = 0.8F,
                    .highest = kInfinity};
        case GlassForm::kDemijohn:
            return {.name = "demijohn",
                    .side = 0.05F,
                    .side_words = "a twentieth",
                    .base = 1.5F,
                    .lowest = 1.0F,
                    .highest = 10};
        case GlassForm::kCarafe:
            return {.name = "carafe",
                    .side = 0.06F,
                    .side_words = "6 %",
                    .base = 2,
                    .lowest = 1.1F,
                    .highest = 4};
        case GlassForm::kTumbler:
            return {.name = "tumbler",
                    .side = 0.2F,
                    .side_words = "a fifth",
                    .base = 3,
                    .lowest = 0,
                    .highest = kInfinity};
        default:
            return {.name = "jar",
                    .side = 0.2F,
                    .side_words = "a fifth",
                    .base = 1.5F,
                    .lowest = 0,
                    .highest = kInfinity};
    }
}

// What is wrong with a vessel's size; "" if nothing is.
std::string vessel_problem(const GlassObject& object) {
    const VesselLimits limits = vessel_limits(object.form);
    const float side = object.wall + object.relief_depth;
    const auto times = [](float x) { return std::to_string(x).substr(0, 3); };
    if (!(object.height > 0 && object.diameter > 0 && object.wall > 0)) {
        return "height, diameter and wall must be above 0";
    }
    if (!(side <= limits.side * object.diameter)) {
        return std::string("wall and ") +
               (object.surface == GlassSurface::kRibbed ? "rib" : "pattern") +
               " depth together must be at most " + limits.side_words + " of the diameter";
    }
    if (!(object.height >= 0.9999F * limits.lowest * object.diameter)) {
        return std::string("a ") + limits.name + " must be at least " + times(limits.lowest) +
               " times as high as wide";
    }
    if (!(object.height <= limits.highest * object.diameter)) {
        return std::string("a ") + limits.name + " must be at most " +
               std::to_string(static_cast<int>(limits.highest)) + " times as high as wide";
    }
    if (!(std::max(limits.base * object.wall, side) <= 0.4F * object.height)) {
        return "the height must be at least 2.5 times the base and the side are thick";
    }
    return "";
}

}  // namespace

std::string surface_problem(const GlassObject& object) {
    if (object.surface == GlassSurface::kPlain) {
        return object.relief_depth > 0 ? "a plain surface has no depth" : "";
    }
    if (!takes_surface(object.form)) return "a ball and a model have no surface of their own";
    if (!(object.relief_depth > 0)) {
        return object.surface == GlassSurface::kRibbed ? "ribs need a depth above 0"
                                                       : "a pattern needs a depth above 0";
    }
    const bool pane = object.form == GlassForm::kPane;
    if (object.surface == GlassSurface::kRibbed) {
        if (pane) return "a pane has no ribs round it; it can be reeded";
        if (object.ribs < 3 || object.ribs > 256) return "ribs must be 0, or from 3 to 256";
    } else {
        const float across = pane ? std::min(object.width, object.height) : kPiF * object.diameter;
        if (!(object.relief_pitch > 0 && object.relief_pitch <= across / 3)) {
            return "the pattern must fit at least three times across the glass";
        }
        if (!(object.relief_pitch >= across / 256)) {
            return "the pattern must fit at most 256 times across the glass";
        }
        if (!(object.relief_depth <= 0.34F * object.relief_pitch)) {
            return "a pattern must be at most a third as deep as from one crest to the next";
        }
    }
    if (pane && !(object.relief_depth <= 0.5F * object.wall)) {
        return "a pattern must be at most half as deep as the pane is thick";
    }
    if (object.form == GlassForm::kRod && !(object.relief_depth <= 0.2F * object.diameter)) {
        return "a pattern must be at most a fifth as deep as the rod is thick";
    }
    constexpr float kMostTwist = 4 * kPiF;
    if (!(std::abs(object.rib_twist) <= kMostTwist)) return "ribs can turn twice round at most";
    return "";
}

std::string bubble_problem(const GlassObject& object) {
    if (object.bubbles == 0) return "";
    if (object.form == GlassForm::kMesh) return "a model has no bubbles but those in its mesh";
    const float solid = 0.5F * std::min(object.diameter, object.height);
    const float thick = object.form == GlassForm::kPane ? object.wall - object.relief_depth
                        : is_vessel(object.form)        ? object.wall
                                                        : solid;
    if (object.bubbles < 0 || object.bubbles > 400) return "there can be from 0 to 400 bubbles";
    if (!(object.bubble_diameter >= 2e-4F)) return "bubbles must be 0.2 mm or larger";
    if (!(object.bubble_diameter <= 0.8F * thick)) {
        return "bubbles must be smaller than 0.8 of the glass around them";
    }
    return "";
}

std::string fill_problem(const GlassObject& object) {
    if (object.liquid == kNoMaterial) return "";
    if (!is_vessel(object.form))
        return "only a jar, bottle, tumbler, demijohn or carafe can be filled";
    if (!(object.liquid_level > 0 && object.liquid_level <= 1)) {
        return "the level of a filling must be above 0 and at most 1";
    }
    constexpr double kMostTilt =
        radians_from_degrees(60.0);  // at more, little liquid would stay in
    if (!(std::abs(object.tilt) <= kMostTilt + 1e-6)) {
        return "a filled vessel can be tilted by at most 60 degrees";
    }
    return "";
}

std::string glass_problem(const GlassObject& object) {
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
        case GlassForm::kRod:
            if (!(object.diameter > 0 && object.height > 0)) {
                problem = "diameter and height must be above 0";
            }
            break;
        default:
            problem = vessel_problem(object);
    }
    for (const auto& more : {surface_problem, bubble_problem, fill_problem}) {
        if (problem.empty()) problem = more(object);
    }
    return problem;
}

}  // namespace dapple
