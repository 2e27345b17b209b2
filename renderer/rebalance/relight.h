// Light that has come from one source, as it would be from another source on the same way.
//
// A film keeps three numbers of a light group, its XYZ, not the spectrum that reached the pixel.
// The spectrum is taken as S ρ, with the source's S and a mix ρ of the three curves by which
// colours become reflectances (E31). The three numbers give the mix, and the mix gives the new XYZ:
//   XYZ' = X' inv(X) XYZ,  X = [XYZ of S r, XYZ of S g, XYZ of S b],  X' the same of S'      (E172)
// This is exact where S' is a multiple of S, and for one reflection off a colour of the set file.
// For grey surfaces it is the ratio of the sources' XYZ. Measured skin, and light that has been
// reflected several times, are approximated; the errors say how well.
#pragma once

#include "math/vec.h"
#include "spectrum/curve.h"

namespace dapple {

struct Relight {
    DMat3 matrix{1.0};  // XYZ to XYZ'
    // The most by which Y', and any component of XYZ', is wrong, over skin, hair, and two
    // reflections off saturated colours. Shares of the true Y'. 0: exact.
    double luminance_error = 0;
    double colour_error = 0;

    bool is_exact() const { return colour_error == 0; }
};

// Both spectra in any unit, the same for both; `was` must not be black.
Relight make_relight(const Curve& was, const Curve& is);

}  // namespace dapple
