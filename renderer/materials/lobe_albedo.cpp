#include "materials/lobe_albedo.h"

#include <algorithm>

#include "materials/fresnel.h"
#include "materials/microfacet.h"
#include "math/sequences.h"
#include "math/warps.h"

namespace dapple {

namespace {

// Sobol points over the visible normals: the integrand is smooth and within 0 … 1, 4096 points
// leave about 1e-4.
template <typename FacetReflectance>
float lobe_albedo(float cos_o, float alpha, const FacetReflectance& facet_reflectance) {
    constexpr uint32_t kPoints = 4096;
    const Direction wo = direction_from_angles(cos_o, std::sqrt(1.0F - cos_o * cos_o), 0);
    double sum = 0;
    for (uint32_t i = 0; i < kPoints; ++i) {
        const auto u = sobol_owen_4d(i, 1);
        const Direction h = sample_visible_normal(wo, alpha, u[0], u[1]);
        const Direction wi = reflect(wo, h);
        if (wi.z <= 0) continue;
        const float g2_over_g1 = smith_g2_reflection(wo, wi, alpha) / smith_g1(wo, alpha);
        sum += g2_over_g1 * facet_reflectance(std::max(0.0F, glm::dot(wo, h)));
    }
    return static_cast<float>(sum / kPoints);
}

template <typename FacetReflectance>
LobeAlbedo make_lobe_albedo(float alpha, const FacetReflectance& facet_reflectance) {
    LobeAlbedo albedo;
    for (int i = 0; i < CosineTable::kSize; ++i) {
        // The limit at exactly grazing is read a little above it.
        const auto c = static_cast<float>(std::max(CosineTable::cosine(i), 1e-6));
        albedo.table[i] = alpha > 0 ? std::min(lobe_albedo(c, alpha, facet_reflectance), 1.0F)
                                    : facet_reflectance(c);
    }
    albedo.average = static_cast<float>(albedo.table.diffuse_average());
    return albedo;
}

}  // namespace

LobeAlbedo make_white_lobe_albedo(float alpha) {
    return make_lobe_albedo(alpha, [](float) { return 1.0F; });
}

LobeAlbedo make_dielectric_lobe_albedo(float alpha, float eta) {
    return make_lobe_albedo(alpha, [eta](float c) { return fresnel_dielectric(c, eta); });
}

}  // namespace dapple
