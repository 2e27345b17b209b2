// An image without signal, with the noise of the film's luminance in cd/m²:
//   H = (1/n) Σ ±(W_1 - W_2)_p + (O_odd - O_even) √(n_odd n_even)/n                      (E132)
// W_1, W_2: light of the two halves of pass p's light walks, with the sign of the pass's parity;
// O_odd, O_even: mean of all other light over the odd and the even passes, n = n_odd + n_even.
// Both terms are differences of two independent samples of the same light, so their mean is 0
// whatever the scene. Neighbouring pixels share noise in H as they do on the film, and nothing has
// to be assumed about the splats.
//
// After one pass, and on a film of passes of one parity, there is no such pair. The other light
// comes from camera walks, which are independent from pixel to pixel. So its noise is taken from
// the difference of a pixel from its k neighbours on the same surface, ±(O - mean)/√(1 + 1/k), with
// a random sign.
#pragma once

#include "clean/colour_planes.h"
#include "clean/plane.h"
#include "film/film.h"
#include "film/seen_points.h"

namespace dapple {

Plane make_noise_image(const Film& film, const SeenPoints& seen);

// Whether the film has odd and even passes; else its passes show the noise of light walks alone.
bool has_both_parities(const Film& film);

// The noise of each colour channel, linear Rec.709, cd/m²: the second term of E132 for all light.
// Without both parities it is the first term, the noise of light walks alone.
ColourPlanes make_colour_noise(const Film& film);

}  // namespace dapple
