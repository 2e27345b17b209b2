// A lens as a list of spheres: the prescription, in the order in which light meets it.
//
// Lengths are in mm, z runs along the light from the vertex of the first surface. A radius is above
// 0 if the centre of its sphere is behind the vertex; 0 is a plane. One of the surfaces is the
// aperture stop, which does not refract.
//   n(λ) = a + b/λ²,  b = (n_d - 1) / (V (λ_F⁻² - λ_C⁻²)),  a = n_d - b/λ_d²               (E116)
// λ_F, λ_d, λ_C = 486.1, 587.6, 656.3 nm (Cauchy's formula, two terms). Without an Abbe number V
// the index is n_d at all wavelengths.
#pragma once

#include <string>
#include <vector>

#include "scene/scene.h"

namespace dapple {

struct CauchyIndex {
    double a = 1;
    double b = 0;  // nm²

    double at(double nm) const { return a + b / (nm * nm); }
};

CauchyIndex cauchy_from(double index_d, double abbe);

struct LensSurface {
    double vertex = 0;       // mm
    double radius = 0;       // mm
    double free_radius = 0;  // mm
    bool is_stop = false;
    CauchyIndex before, behind;
};

struct Prescription {
    std::vector<LensSurface> surfaces;
    size_t stop = 0;  // index into surfaces

    bool is_dispersive() const;
};

// The rows of the lens as published: mm, not scaled.
std::vector<LensRow> published_rows(const std::string& name);

// Scaled so that its focal length at 587.6 nm is `focal_length`, mm.
Prescription make_prescription(const CameraLens& lens, double focal_length);
// As the rows say.
Prescription prescription_of(const std::vector<LensRow>& rows);

}  // namespace dapple
