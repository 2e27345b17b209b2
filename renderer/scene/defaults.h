// The values of keys that a set file leaves out, where the default in scene.h is not enough because
// the value depends on something else. They follow common practice, without a source unless one is
// named.
#pragma once

#include "math/vec.h"
#include "scene/scene.h"

namespace dapple {

// The field angle of a soft-edged beam, as a multiple of its beam angle; with it the exponent of
// the beam law is 4.
inline constexpr double kFieldPerBeam = 1.35;

// The beam of a spot with a wrong beam or with a photometric file; degrees.
inline constexpr double kBeamAngle = 40;

// Correlated colour temperature of a source, K: halogen photo lamps; mean noon daylight.
constexpr double default_cct(SourceKind source) {
    return source == SourceKind::kTungsten ? 3200 : 5600;
}

inline constexpr double kSourceDiameter = 0.010;  // m, a small lens or lamp

inline constexpr float kBoxReflectance = 0.5F;       // walls of a box room
inline constexpr float kFlagReflectance = 0.03F;     // black cloth
inline constexpr float kHousingReflectance = 0.04F;  // black paint
inline constexpr float kBounceReflectance = 0.9F;    // white board
inline constexpr float kMetalFoil = 0.35F;           // roughness of silver and gold boards
inline constexpr float kDoorReflectance = 0.1F;      // dark paint
inline constexpr double kWindowCct = 6500;           // K, an overcast sky
inline constexpr double kFigureHeight = 1.70;        // m
inline constexpr double kGlossRoughness = 0.25;      // painted gloss on a lay figure
inline constexpr double kDressTransmission = 0.4;    // sheer cloth
inline constexpr double kClipMm = 15;                // distance of a clip-on diffuser from the lens
inline constexpr float kClipMargin = 1.15F;          // its width over that of the beam there
inline constexpr double kDiffuserTransmission = 0.5;
inline constexpr double kSheetSpread = 45;  // degrees, half-angle of the forward lobe
inline constexpr double kDiffuserReflected =
    0.9;                                       // part of the light that a diffuser does not pass
inline constexpr double kCoatRoughness = 0.1;  // varnish, wet ground
inline constexpr double kMetalRoughness = 0.2;

// No surface reflects all light that falls on it: clean snow reflects 0.97 to 0.99 (ECOSTRESS
// spectral library, luminous reflectance of its samples).
inline constexpr double kMaxReflectance = 0.98;

inline constexpr double kReceptorDiameterMm = 25;  // of a hand meter
inline constexpr double kMostReceptorMm = 500;

// Priorities of overlapping solids: glass replaces the liquid that overlaps it.
inline constexpr int kGlassPriority = 10;
inline constexpr int kLiquidPriority = 5;
inline constexpr int kAirPriority = 20;  // a bubble replaces the glass around it
constexpr int default_priority(GlassType glass) {
    switch (glass) {
        case GlassType::kWater:
        case GlassType::kOil:
            return kLiquidPriority;
        case GlassType::kAir:
            return kAirPriority;
        default:
            return kGlassPriority;
    }
}

// Between glass and what it stands on there is a film of air, here thick enough for rays to start
// in it.
inline constexpr float kAirFilm = 5e-5F;  // m

inline constexpr double kFrostRoughness = 0.35;  // etched or blasted
inline constexpr int kRibs = 24;
inline constexpr int kBubbles = 60;
inline constexpr double kBubblePerWall = 0.4;  // the largest bubble over the thickness of the wall
inline constexpr double kBubbleInSolid = 0.001;  // m, in balls and rods

// Patterns in glass, m: from crest to crest, and their depth. Ribs have a number instead of a
// pitch. Dents and waves are so shallow that they focus half a metre to some metres behind the
// glass (E61, E62), so that a beam still shows them at a throw of three metres.
struct PatternSize {
    double pitch, depth;
};
constexpr PatternSize default_pattern_size(GlassSurface surface) {
    switch (surface) {
        case GlassSurface::kRibbed:
            return {0, 0.0015};
        case GlassSurface::kReeded:
            return {0.010, 0.0008};
        case GlassSurface::kHammered:
            return {0.020, 0.00016};
        case GlassSurface::kWavy:
            return {0.040, 0.0015};
        default:
            return {};
    }
}

// Made glassware, m.
struct GlassSize {
    double height, diameter, width, wall;
};
constexpr GlassSize default_glass_size(GlassForm form) {
    switch (form) {
        case GlassForm::kJar:
            return {0.260, 0.120, 0, 0.0030};
        case GlassForm::kBottle:
            return {0.300, 0.075, 0, 0.0030};
        case GlassForm::kTumbler:
            return {0.100, 0.080, 0, 0.0025};
        case GlassForm::kPane:
            return {0.300, 0, 0.300, 0.0040};
        case GlassForm::kBall:
            return {0.080, 0.080, 0, 0};  // solid
        case GlassForm::kDemijohn:
            return {0.420, 0.320, 0, 0.0050};
        case GlassForm::kCarafe:
            return {0.270, 0.130, 0, 0.0035};
        case GlassForm::kRod:
            return {0.300, 0.020, 0, 0};  // solid
        default:
            return {};
    }
}

}  // namespace dapple
