#include "spectrum/rgb_reflectance.h"

#include "spectrum/illuminants.h"
#include "spectrum/observer.h"
#include "spectrum/rgb_reflectance_table.h"
#include "spectrum/white_balance.h"

namespace dapple {

namespace {

Curve combine(const RgbBasis& basis, const glm::dvec3& weights) {
    return basis.r * weights.x + basis.g * weights.y + basis.b * weights.z;
}

Curve published_column(int column) {
    std::vector<double> table;
    for (const auto& row : kMallettYuksel2019) table.push_back(row[column]);
    return Curve(table, kMinWavelength, kMallettYukselStep);
}

// The published curves, which sum to 1 within 1e-5, scaled to sum to 1.
RgbBasis published_basis() {
    RgbBasis basis{published_column(0), published_column(1), published_column(2)};
    for (int i = 0; i < Curve::kSize; ++i) {
        const float sum = basis.r[i] + basis.g[i] + basis.b[i];
        basis.r[i] /= sum;
        basis.g[i] /= sum;
        basis.b[i] /= sum;
    }
    return basis;
}

// Linear RGB of a reflectance under our D65.
glm::dvec3 rgb_under_d65(const Curve& reflectance) {
    const Curve light = daylight_d65();
    return linear_rec709_from_xyz() * (integrate_xyz(reflectance * light) / integrate_xyz(light).y);
}

// White gives (1, 1, 1) before and after, so the corrected curves still sum to 1.
RgbBasis corrected_basis() {
    const RgbBasis published = published_basis();
    const DMat3 correction = glm::inverse(
        DMat3(rgb_under_d65(published.r), rgb_under_d65(published.g), rgb_under_d65(published.b)));
    return {combine(published, correction[0]),
            combine(published, correction[1]),
            combine(published, correction[2])};
}

}  // namespace

const RgbBasis& rgb_basis() {
    static const RgbBasis basis = corrected_basis();
    return basis;
}

Curve reflectance_curve(const Rgb& linear_rec709) {
    return combine(rgb_basis(), glm::dvec3(linear_rec709));
}

RgbBasisSample sample_rgb_basis(const Wavelengths& wavelengths) {
    const RgbBasis& basis = rgb_basis();
    return {basis.r.at(wavelengths), basis.g.at(wavelengths), basis.b.at(wavelengths)};
}

}  // namespace dapple
