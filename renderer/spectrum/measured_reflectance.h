// Reflectance spectra of people, measured: what three numbers of red, green and blue cannot say.
// Skin is lit up from 580 nm on, where blood stops taking light, with a dip at 545 and 575 nm.
//
// Source: Vrhel, Gershon and Iwan 1994, "Measurement and analysis of object reflectance spectra",
// Color Research and Application 19, 390 to 730 nm; end values held outside. Each is the mean of
// the samples of its kind, every 10 nm of their 2.
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

// Not of kNone.
const Curve& measured_reflectance(MeasuredReflectance which);

}  // namespace dapple
