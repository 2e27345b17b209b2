// Diffusion cloths by their trade names: loss, spread and the part that passes straight.
//
// The loss is of all the light, as a meter reads it right behind a sheet that is lit evenly.
// Farther away the loss on the axis of a beam is larger, because the sheet spreads the beam. Losses
// follow the usual descriptions of diffusion materials; spread and direct part are typical figures
// of our own (common practice, no source).
#pragma once

#include <array>

namespace dapple {

struct Cloth {
    const char* name;
    double stops;       // 2^-stops of the light passes
    double spread_deg;  // half-angle of the forward lobe at half intensity; 60 is Lambertian
    double direct;      // part of the light on it that passes unscattered
};

inline constexpr std::array<Cloth, 14> kCloths{{{"full", 1.5, 60, 0},
                                                {"half", 0.75, 40, 0.03},
                                                {"quarter", 0.33, 22, 0.15},
                                                {"eighth", 0.25, 12, 0.35},
                                                {"opal", 0.5, 15, 0.02},
                                                {"light-frost", 0.25, 8, 0.10},
                                                {"heavy-frost", 2.0, 60, 0},
                                                {"grid", 2.5, 60, 0},
                                                {"light-grid", 2.0, 50, 0.01},
                                                {"quarter-grid", 1.0, 35, 0.08},
                                                {"silk", 1.67, 30, 0.12},
                                                {"quarter-silk", 0.67, 20, 0.35},
                                                {"muslin", 2.0, 60, 0.01},
                                                {"reflector", 1.5, 55, 0}}};

}  // namespace dapple
