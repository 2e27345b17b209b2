// How much of the light from one direction a microfacet lobe reflects in all.
//
//   A(cosθo) = ∫ F(wo·h) G2/G1(wo) Dv(h) dh      over normals that lead wi above the surface  (E28)
// A single bounce loses what would bounce again between facets. Kinds that mend the loss
// (conductor.h) or share the rest with a base (coated.h) need to know A. Made once per material.
#pragma once

#include "materials/cosine_table.h"

namespace dapple {

struct LobeAlbedo {
    CosineTable table;
    float average = 1;  // under light from the whole hemisphere

    float at(float cosine) const { return table.at(cosine); }
};

// Every facet reflects all: a white metal.
LobeAlbedo make_white_lobe_albedo(float alpha);
// Every facet is a dielectric of relative index eta. alpha = 0: the exact Fresnel reflectance.
LobeAlbedo make_dielectric_lobe_albedo(float alpha, float eta);

}  // namespace dapple
