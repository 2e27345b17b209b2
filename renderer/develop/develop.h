// Film to picture.
//
// Linear: XYZ in cd/m² → Bradford from the white_k white to D65 → linear Rec.709 → divided by the
// white luminance (E149). Exposure units: 1.0 is a perfect white in the metered light.
//
// Display: c linear, Y its Rec.709 luminance, k the knee,
//   shoulder(x) = x                                       x ≤ k                        (E155)
//               = k + (1 - k) u/(1 + u),  u = (x - k)/(1 - k)    above; slope 1 at k, below 1
//   1. a channel below 0: the colour moves towards the grey of its luminance until it is 0
//   2. tone: c ← c Y'/Y,  Y' = s² Y + (1 - s) shoulder(Y),                             (E156)
//            s = shoulder(n)/n,  n = (Y + max c)/2
//   3. a channel near 1 or above: with r = (max c - Y)/(1 - Y), the colour's distance from that
//      grey is multiplied by shoulder(r)/r
//   4. sRGB encoding (IEC 61966-2-1)
// A colour with every channel in [0, k] is encoded exactly as sRGB. Brighter colours go towards
// white at constant hue, and different colours stay different. Toning by n keeps the colour of a
// highlight; toning by Y turns it white. E156 moves from the first to the second as the highlight
// brightens. The curve is our own.
#pragma once

#include <vector>

#include "clean/clean_film.h"
#include "develop/glare_frame.h"
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

// Linear Rec.709 in exposure units, of all light or of one light group.
Picture develop_linear(const Film& film, const Camera& camera);
Picture develop_linear(const Film& film, const Camera& camera, int group);
Picture develop_linear(const CleanFrame& frame, const Camera& camera);

// Adds what the lens adds to the picture, of all light groups.
void add_glare(const GlareFrame& glare, const Camera& camera, Picture& linear);

float shoulder(float x);                // E155
Rgb display_colour(const Rgb& linear);  // steps 1 to 4 for one colour; each channel in [0, 1]

// sRGB encoded, 0 to 1.
Picture develop_display(const Picture& linear);

}  // namespace dapple
