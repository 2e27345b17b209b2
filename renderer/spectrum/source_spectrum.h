// Scales a relative spectral power to one lumen: 683 lm/W ∫ S V dλ = 1 (E17). Units: W/(nm lm).
#pragma once

#include "spectrum/curve.h"
#include "spectrum/observer.h"

namespace dapple {

inline Curve normalised_to_lumen(const Curve& relative) {
    return relative * (1.0 / luminous_flux(relative));
}

}  // namespace dapple
