#include "materials/fresnel.h"

namespace dapple {

double diffuse_fresnel(double eta) {
    // Midpoint rule in the angle; 20 000 steps leave 1e-7 at the kink of total reflection.
    constexpr int kSteps = 20000;
    double sum = 0;
    for (int i = 0; i < kSteps; ++i) {
        const double theta = (i + 0.5) / kSteps * (kPi / 2);
        const auto f =
            fresnel_dielectric(static_cast<float>(std::cos(theta)), static_cast<float>(eta));
        sum += f * std::sin(2 * theta);
    }
    return sum * (kPi / 2) / kSteps;
}

}  // namespace dapple
