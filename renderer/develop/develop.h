// Film to picture.
//
// Linear: XYZ in cd/m² → Bradford from the white_k white to D65 → linear Rec.709 → over the white
// luminance (D3). Exposure units: 1.0 is a perfect white in the metered light.
//
// Display: c linear, Y its Rec.709 luminance, k the knee,
//   shoulder(x) = x                                       x ≤ k                          (D6)
//               = k + (1 - k) u/(1 + u),  u = (x - k)/(1 - k)    above; slope 1 at k, below 1
//   1. a channel below 0: towards the grey of the same luminance until it is 0
//   2. tone: c ← c Y'/Y,  Y' = s² Y + (1 - s) shoulder(Y),                               (D7)
//            s = shoulder(n)/n,  n = (Y + max c)/2
//   3. a channel near 1 or above: with r = (max c - Y)/(1 - Y), towards grey by shoulder(r)/r
//   4. sRGB encoding (IEC 61966-2-1)
// A colour with every channel in [0, k] comes out exactly as sRGB encodes it; brighter ones go
// towards white along their own hue and no area is flat. Toned by n a coloured highlight keeps its
// colour, toned by Y it goes to white: it starts with the one and ends with the other. Our own
// curve.
#pragma once

#include <vector>

#include "film/film.h"
#include "math/vec.h"
#include "scene/scene.h"

namespace dapple {

struct Picture {
    int width = 0, height = 0;
    std::vector<Rgb> pixels;  // rows from the top

    const Rgb& at(int x, int y) const {
        return pixels[static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x)];
    }
};

inline constexpr float kShoulderKnee = 0.7F;  // half a stop under white

// XYZ in cd/m² to linear Rec.709 in exposure units, white balanced.
DMat3 develop_matrix(const Camera& camera);

// Linear Rec.709, exposure units. All light, or that of one light group.
Picture develop_linear(const Film& film, const Camera& camera);
Picture develop_linear(const Film& film, const Camera& camera, int group);

float shoulder(float x);                // D6
Rgb display_colour(const Rgb& linear);  // steps 1 to 4 for one colour; each channel in [0, 1]

// sRGB encoded, 0 to 1.
Picture develop_display(const Picture& linear);

}  // namespace dapple
