#include "published/vertex_law.h"

#include <cmath>

namespace dapple::published {

namespace {

// The factor of E74; 0 if `wi` is on different sides of the two normals.
float normal_factor(const Vertex& vertex, const Direction& wi) {
    if (wi.z == 0) return 0;
    const float in = glm::dot(vertex.at.geometric, vertex.wo_world);
    const float out = glm::dot(vertex.at.geometric, vertex.frame().to_world(wi));
    if ((in * out > 0) != same_side(vertex.wo(), wi)) return 0;
    return std::abs(vertex.wo().z * out / (in * wi.z));
}

// Draws a facet of GGX with density |cosθ| D (Walter et al. 2007, equations 35 and 36).
Direction draw_facet(float alpha, RandomStream& random) {
    const float u = random.next();
    const float tangent = alpha * std::sqrt(u / (1 - u));
    const float cosine = 1 / std::sqrt(1 + tangent * tangent);
    return direction_from_angles(cosine, tangent * cosine, 2 * kPiF * random.next());
}

class Law {
  public:
    Law(const Vertex& vertex, RandomStream& random)
        : vertex_(vertex), wo_(vertex.wo()), up_(on_side_of(wo_, wo_)), random_(random) {}

    SentOn sum() const { return sum_; }

    void operator()(const Lambertian& m) { add(draw_cosine(), m.reflectance); }

    // Schlick's law for conductors (E33).
    void operator()(const Mirror& m) {
        const float rest = std::pow(1 - up_.z, 5.0F);
        add(mirrored(wo_), m.reflectance * (1 - rest) + Spectrum(rest));
    }

    void operator()(const Conductor& m) { add_glossy(m); }

    void operator()(const Coated& m) {
        if (m.alpha > 0) return add_glossy(m);
        add(mirrored(wo_), Spectrum(m.coat * fresnel_dielectric(up_.z, kCoatIndex)));
        const Direction wi = draw_cosine();
        add(wi, eval(m, wo_, wi, Carrying::kFlux) * kPiF);
    }

    // Clear glass: light that is not reflected is refracted.
    void operator()(const SmoothGlass& m) {
        const Spectrum reflected = fresnel_dielectric(up_.z, eta_from(m.eta, wo_.z));
        add(mirrored(wo_), reflected);
        const float eta = eta_from(m.eta, m.hero, wo_.z);
        const float cos_t = refracted_cosine(up_.z, eta);
        if (cos_t <= 0) return;
        const Direction wi(-wo_.x / eta, -wo_.y / eta, wo_.z > 0 ? -cos_t : cos_t);
        add(wi, Spectrum(1.0F) - reflected);
    }

    // Reflection and refraction at one facet.
    void operator()(const RoughGlass& m) {
        const Direction h = draw_facet(m.alpha, random_);
        const float cos_o = glm::dot(up_, h);
        if (cos_o <= 0) return;
        const float facets = ggx_density(h, m.alpha) * h.z;
        const Direction back = reflect(up_, h);
        if (back.z > 0) add_drawn(m, back, facets / (4 * cos_o));
        const float eta = eta_from(m.eta, m.hero, wo_.z);
        const float cos_t = refracted_cosine(cos_o, eta);
        const Direction on = refract(up_, h, cos_o, cos_t, eta);
        if (cos_t <= 0 || on.z >= 0) return;
        add_drawn(m, on, facets * eta * eta * cos_t / square(cos_o - eta * cos_t));
    }

    void operator()(const ThinGlass& m) {
        const PaneShares shares = pane_shares(m, up_.z);
        add(mirrored(wo_), shares.reflected);
        add_straight(shares.transmitted);
    }

    // The lobe is drawn only for the effect of the normal.
    void operator()(const Sheet& m) {
        add(draw_cosine(), m.reflectance);
        add_straight(Spectrum(m.direct));
        const float u = random_.next();
        const float v = random_.next();
        const Direction lobe = sample(*m.lobe, up_, Vec3(u, v, random_.next()));
        const float density = pdf(*m.lobe, up_, lobe);
        const float weight = density > 0 ? eval(*m.lobe, up_, lobe) * lobe.z / density : 0.0F;
        const float factor = normal_factor(vertex_, on_side_of(flipped(lobe), wo_));
        sum_.by_law += Spectrum(m.forward);
        if (is_dropped()) return;
        sum_.with_normal += Spectrum(m.forward * (1 + weight * (factor - 1)));
    }

    // Only the share `opacity` of the light meets the surface; the rest passes.
    void thin_out(float opacity) {
        sum_.by_law *= opacity;
        sum_.with_normal *= opacity;
        add_straight(Spectrum(1 - opacity));
    }

  private:
    // A light walk that arrives on the wrong side of the interpolated normal ends there.
    bool is_dropped() const { return vertex_.shading_faces_away && !is_delta(vertex_.bsdf); }

    Direction draw_cosine() {
        const float u = random_.next();
        return on_side_of(sample_cosine_hemisphere(u, random_.next()), wo_);
    }

    void add_straight(const Spectrum& share) {
        sum_.by_law += share;
        sum_.with_normal += share;
    }

    void add(const Direction& wi, const Spectrum& share) {
        sum_.by_law += share;
        if (!is_dropped()) sum_.with_normal += share * normal_factor(vertex_, wi);
    }

    // `i` is on wo's side.
    template <typename Kind>
    void add_drawn(const Kind& kind, const Direction& i, float density) {
        const Direction wi = on_side_of(i, wo_);
        add(wi, eval(kind, wo_, wi, Carrying::kFlux) * (std::abs(i.z) / density));
    }

    // A lobe of facets and a wide lobe: one direction for each, weighted by the balance heuristic
    // (Veach 1997).
    template <typename Kind>
    void add_glossy(const Kind& kind) {
        const float u = random_.next();
        const Direction wide = sample_cosine_hemisphere(u, random_.next());
        for (const Direction& i : {reflect(up_, draw_facet(kind.alpha, random_)), wide}) {
            if (i.z <= 0) continue;
            const Direction h = glm::normalize(up_ + i);
            const float facets = ggx_density(h, kind.alpha) * h.z / (4 * glm::dot(up_, h));
            add_drawn(kind, i, facets + pdf_cosine_hemisphere(i.z));
        }
    }

    const Vertex& vertex_;
    Direction wo_;
    Direction up_;  // wo on the upper side
    RandomStream& random_;
    SentOn sum_;
};

}  // namespace

SentOn sent_on(const Vertex& vertex, RandomStream& random) {
    Vertex framed = vertex;
    framed.make_local_frame();
    Law law(framed, random);
    std::visit([&](const auto& kind) { law(kind); }, vertex.bsdf.kind);
    law.thin_out(vertex.bsdf.opacity);
    return law.sum();
}

}  // namespace dapple::published
