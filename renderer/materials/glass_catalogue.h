// The index of refraction and the absorption of the clear materials that a set can name.
//
// n(λ) relative to air at 20 °C, from Sellmeier and polynomial formulas (E44); the coefficients are
// those collected in Polyanskiy 2024 (Scientific Data 11, 94; public-domain data):
//   soda-lime     window glass, Rubin 1985 (Solar Energy Materials 12, 275)
//   borosilicate  low-expansion laboratory glass, glass code 471-654
//   lead crystal  very light flint, glass code 548-458, for tableware with about 24 % PbO
//   silica        Malitson 1965
//   acrylic       Beadie et al. 2015, given for 420 nm and up, continued below
//   water         Daimon and Masumura 2007 at 20 °C, against vacuum: divided by the air's 1.000272
//   oil           clear paraffin oil, n_d 1.470 and Abbe number 58, from memory; the indices of
//                 salad and lamp oils are between 1.465 and 1.475
//   air           1: a hollow in glass
//
// Absorption is Napierian, per metre, interpolated linearly in tables of 10 nm steps:
//   found    soda-lime clear: low-iron glass (Rubin 1985), used for decolourised jars and
//            bottles; clear window glass (Rubin 1985) for panes; borosilicate: crown 517-642;
//            lead crystal: flint 620-364; water: Hale and Querry 1973
//   none     silica, acrylic and oil: assumed perfectly clear at the thicknesses of a set
//   model    green, amber and cobalt container glass: band shapes from memory scaled to plausible
//            bottles (amber passes under 10 % at 2 mm below 450 nm as container rules require);
//            cobalt is clear glass plus a quarter of a measured blue filter glass. Not
//            measurements.
#pragma once

#include "scene/scene.h"
#include "spectrum/curve.h"

namespace dapple {

double refractive_index(GlassType glass, double nm);

Curve refractive_index_curve(GlassType glass);
// A tint other than clear replaces the material's own absorption.
Curve absorption_curve(GlassType glass, Tint tint);  // per metre
Curve window_absorption_curve(Tint tint);            // per metre, for panes

// Beer–Lambert: the share of light that is left after `distance` metres (E45).
inline Spectrum transmittance(const Spectrum& absorption_per_metre, float distance) {
    return exp(absorption_per_metre * -distance);
}

}  // namespace dapple
