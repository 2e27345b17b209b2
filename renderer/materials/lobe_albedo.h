// The share of the light from one direction that a microfacet lobe reflects in total.
//
//   A(cosθo) = ∫ F(wo·h) G2/G1(wo) Dv(h) dh      over normals that lead wi above the surface  (E38)
// A single bounce loses the light that would bounce again between facets. Materials that restore
// it (conductor.h) or pass the rest to a base (coated.h) need A. Made once per material.
#pragma once

#include "materials/cosine_table.h"

namespace dapple {

struct LobeAlbedo {
    CosineTable table;
    float average = 1;  // under light from the whole hemisphere

    float at(float cosine) const { return table.at(cosine); }
};

// Every facet reflects all light: a white metal.
LobeAlbedo make_white_lobe_albedo(float alpha);
// Every facet is a dielectric of relative index eta. alpha = 0: the exact Fresnel reflectance.
LobeAlbedo make_dielectric_lobe_albedo(float alpha, float eta);

}  // namespace dapple
