// Measured reflectance spectra of skin and hair, which red, green and blue values cannot represent.
// Skin reflects strongly from 580 nm on, where blood stops absorbing, with dips at 545 and 575 nm.
//
// Source: Vrhel, Gershon and Iwan 1994, "Measurement and analysis of object reflectance spectra",
// Color Research and Application 19, 390 to 730 nm; end values held outside. Each is the mean of
// the samples of its kind, taken every 10 nm from their steps of 2 nm.
#pragma once

#include "spectrum/curve.h"

namespace dapple {

enum class MeasuredReflectance {
    kNone,
    kLightSkin,   // 4 samples
    kMediumSkin,  // 5
    kDarkSkin,    // 2
    kDarkHair,    // 2
    kFairHair,    // 1
};

// `which` must not be kNone.
const Curve& measured_reflectance(MeasuredReflectance which);

}  // namespace dapple
