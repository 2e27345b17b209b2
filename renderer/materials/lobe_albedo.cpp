#include "materials/lobe_albedo.h"

#include <algorithm>

#include "base/kept_parts.h"
#include "materials/fresnel.h"
#include "materials/microfacet.h"
#include "math/warps.h"

namespace dapple {

namespace {

// Midpoint rule over the two numbers of sample_visible_normal(). u = 1 - t⁴ resolves the long tail
// of GGX near u = 1. Half the range of v is enough: the other half is its mirror image. The error
// is about 1e-4.
template <typename FacetReflectance>
float lobe_albedo(float cos_o, float alpha, const FacetReflectance& facet_reflectance) {
    constexpr int kRadii = 64;
    constexpr int kAngles = 24;
    const Direction wo = direction_from_angles(cos_o, std::sqrt(1.0F - cos_o * cos_o), 0);
    double sum = 0;
    double weights = 0;
    for (int a = 0; a < kRadii; ++a) {
        const float t = (static_cast<float>(a) + 0.5F) / kRadii;
        const float u = 1.0F - t * t * t * t;
        double ring = 0;
        for (int b = 0; b < kAngles; ++b) {
            const float v = 0.25F + (static_cast<float>(b) + 0.5F) / (2 * kAngles);
            const Direction h = sample_visible_normal(wo, alpha, u, v);
            const Direction wi = reflect(wo, h);
            if (wi.z <= 0) continue;
            const float g2_over_g1 = smith_g2_reflection(wo, wi, alpha) / smith_g1(wo, alpha);
            ring += static_cast<double>(g2_over_g1 *
                                        facet_reflectance(std::max(0.0F, glm::dot(wo, h))));
        }
        const double du = static_cast<double>(t) * t * t;
        sum += ring * du;
        weights += kAngles * du;
    }
    return static_cast<float>(sum / weights);
}

template <typename FacetReflectance>
LobeAlbedo make_lobe_albedo(float alpha, const FacetReflectance& facet_reflectance) {
    LobeAlbedo albedo;
    for (int i = 0; i < CosineTable::kSize; ++i) {
        // The limit at exactly grazing is computed slightly above it.
        const auto c = static_cast<float>(std::max(CosineTable::cosine(i), 1e-6));
        albedo.table[i] = alpha > 0 ? std::min(lobe_albedo(c, alpha, facet_reflectance), 1.0F)
                                    : facet_reflectance(c);
    }
    albedo.average = static_cast<float>(albedo.table.diffuse_average());
    return albedo;
}

// `eta`: 0 for white.
template <typename FacetReflectance>
LobeAlbedo kept_lobe_albedo(float alpha, float eta, const FacetReflectance& facet_reflectance) {
    std::string key = "lobe albedo ";
    add_to_key(key, alpha);
    add_to_key(key, eta);
    return *kept_or_made<LobeAlbedo>(
        key,
        [&] { return make_lobe_albedo(alpha, facet_reflectance); },
        [](const LobeAlbedo&) { return sizeof(LobeAlbedo); });
}

}  // namespace

LobeAlbedo make_white_lobe_albedo(float alpha) {
    return kept_lobe_albedo(alpha, 0, [](float) { return 1.0F; });
}

LobeAlbedo make_dielectric_lobe_albedo(float alpha, float eta) {
    return kept_lobe_albedo(alpha, eta, [eta](float c) { return fresnel_dielectric(c, eta); });
}

}  // namespace dapple
