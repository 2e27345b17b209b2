#include "scene/photometry/photometry_flux.h"

#include <cmath>

namespace dapple {

double zone_integral(double t0, double t1, double i0, double i1) {
    return i0 * std::cos(t0) - i1 * std::cos(t1) +
           (i1 - i0) / (t1 - t0) * (std::sin(t1) - std::sin(t0));
}

double lumens_of(const Photometry& photometry) {
    double lumens = 0;
    for (size_t a = 0; a + 1 < photometry.azimuth.size(); ++a) {
        const double width = photometry.azimuth[a + 1] - photometry.azimuth[a];
        const auto mean = [&](size_t p) {
            return 0.5 * (photometry.at(a, p) + photometry.at(a + 1, p));
        };
        for (size_t p = 0; p + 1 < photometry.polar.size(); ++p) {
            lumens +=
                width *
                zone_integral(photometry.polar[p], photometry.polar[p + 1], mean(p), mean(p + 1));
        }
    }
    return lumens;
}

}  // namespace dapple
