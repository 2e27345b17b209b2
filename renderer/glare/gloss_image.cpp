#include "glare/gloss_image.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr int kAcross = 40;           // directions of the sum
constexpr float kEdgeOfPeak = 2e-4F;  // what is dimmer is left out: about 2 % of a wide lobe
constexpr int kMostSteps = 400;       // to the edge of the blur, an eighth of α each at first
constexpr float kFirstStep = 0.125F;  // of α
constexpr float kGrowth = 1.15F;      // of the next step

// The lobe alone: the coat without its base.
Spectrum eval_gloss(const Bsdf& bsdf, const Direction& wo, const Direction& wi) {
    if (const Coated* coated = std::get_if<Coated>(&bsdf.kind)) {
        Coated clear = *coated;
        clear.bare = clear.covered = Spectrum(0.0F);
        return eval(clear, wo, wi, Carrying::kFlux) * bsdf.opacity;
    }
    const Conductor* metal = std::get_if<Conductor>(&bsdf.kind);
    return metal ? eval(*metal, wo, wi, Carrying::kFlux) * bsdf.opacity : Spectrum(0.0F);
}

class GlossView {
  public:
    GlossView(const Setup& setup, const SmoothWays& ways, int fixture, FirstSmooth first)
        : setup_(setup), ways_(ways), fixture_(fixture), first_(first) {}

    // What the lens sees of the lamp in the gloss in this direction, cd/m².
    Spectrum at(const Direction& direction) const {
        ways_.follow(direction, first_, parts_, &vertex_);
        if (parts_.size() < 2 || !(parts_.back().gloss > 0)) return Spectrum(0.0F);
        const Emitter& lamp = setup_.emitters[static_cast<size_t>(fixture_)];
        const Vec3 to_lamp = lamp.position() - vertex_.at.position;
        const float distance = glm::length(to_lamp);
        const Direction wi = to_lamp / distance;
        const Direction local = vertex_.frame().to_local(wi);
        if (!sides_agree(vertex_, wi, local.z) || local.z * vertex_.wo().z <= 0) {
            return Spectrum(0.0F);
        }
        const auto lux = static_cast<float>(intensity_towards(setup_, fixture_, wi)) *
                         std::abs(local.z) / square(distance);
        if (!(lux > 0)) return Spectrum(0.0F);
        const Spectrum from_gloss = eval_gloss(vertex_.bsdf, vertex_.wo(), local);
        const Spectrum passed =
            ways_.passed_straight(offset_origin(vertex_.at, wi), end_of(lamp, wi));
        return parts_[parts_.size() - 2].passed * from_gloss * passed * lux;
    }
    float alpha() const { return parts_.empty() ? 0.0F : parts_.back().gloss; }

  private:
    // The near side of the lamp.
    static Point end_of(const Emitter& lamp, const Direction& wi) {
        return lamp.is_round() ? lamp.position() - lamp.radius() * wi : lamp.position();
    }

    const Setup& setup_;
    const SmoothWays& ways_;
    int fixture_;
    FirstSmooth first_;
    mutable std::vector<WayPart> parts_;
    mutable Vertex vertex_;
};

// Directions around the mirrored one. s is in the plane of incidence for a level gloss.
struct AroundMirrored {
    Direction middle, s, t;

    Direction at(float u, float v) const { return glm::normalize(middle + u * s + v * t); }
};

// How far along an axis the blur reaches. `sign`: to which side.
float edge_along(const GlossView& view, const AroundMirrored& around, bool is_s, float sign) {
    const auto luminance = [&](float x) {
        return view.at(is_s ? around.at(sign * x, 0) : around.at(0, sign * x)).mean();
    };
    float most = luminance(0);
    float step = kFirstStep * view.alpha();
    float x = step;
    for (int k = 0; k < kMostSteps && x < 1; ++k) {
        const float here = luminance(x);
        most = std::max(most, here);
        if (here < kEdgeOfPeak * most) return x;
        step *= kGrowth;
        x += step;
    }
    return x;
}

AroundMirrored frame_around(const Direction& middle, const Setup& setup) {
    Vec3 side = glm::cross(middle, setup.lens.frame().t);
    if (glm::length(side) < 1e-3F) side = setup.lens.frame().s;
    const Direction t = glm::normalize(side);
    return {middle, glm::cross(t, middle), t};
}

}  // namespace

double intensity_towards(const Setup& setup, int fixture, const Direction& away_from_lens) {
    const auto f = static_cast<size_t>(fixture);
    const Emitter& lamp = setup.emitters[f];
    if (setup.scene.fixtures[f].form == FixtureForm::kBare) return lamp.peak_candela();
    const LampLight light = lamp.eval(lamp.position(), -away_from_lens);
    if (!(light.cos_lamp > 0) || !(light.luminance > 0)) return 0;
    return static_cast<double>(light.luminance * light.cos_lamp / light.pdf_area);
}

std::optional<GlossImage> see_in_gloss(const Setup& setup,
                                       const SmoothWays& ways,
                                       int fixture,
                                       FirstSmooth first,
                                       const Direction& mirrored) {
    const GlossView view(setup, ways, fixture, first);
    const AroundMirrored around = frame_around(mirrored, setup);
    if (!(view.at(mirrored).max() > 0)) return std::nullopt;
    const float reach[4] = {edge_along(view, around, true, -1),
                            edge_along(view, around, true, 1),
                            edge_along(view, around, false, -1),
                            edge_along(view, around, false, 1)};
    // The points are closer together in the middle: x = reach k², dx = 2 reach k dk.
    const auto place = [](float k, float low, float high) {
        return k * std::abs(k) * (k < 0 ? low : high);
    };
    const auto width = [](float k, float low, float high) {
        return 2 * std::abs(k) * (k < 0 ? low : high);
    };
    Spectrum sum(0.0F);
    double weight = 0;
    DVec2 first_moment(0);
    double second_moment = 0;
    for (int j = 0; j < kAcross * kAcross; ++j) {
        const float ku = (2.0F * static_cast<float>(j % kAcross) + 1) / kAcross - 1;
        const float kv = (2.0F * static_cast<float>(j / kAcross) + 1) / kAcross - 1;
        const float u = place(ku, reach[0], reach[1]);
        const float v = place(kv, reach[2], reach[3]);
        const float d_omega = width(ku, reach[0], reach[1]) * width(kv, reach[2], reach[3]) *
                              square(2.0F / kAcross) / std::pow(1 + u * u + v * v, 1.5F);
        const Spectrum light = view.at(around.at(u, v)) * d_omega;
        sum += light;
        const auto w = static_cast<double>(light.mean());
        weight += w;
        first_moment += w * DVec2(u, v);
        second_moment += w * static_cast<double>(u * u + v * v);
    }
    if (!(weight > 0)) return std::nullopt;
    const DVec2 middle = first_moment / weight;
    const double variance = std::max(0.0, second_moment / weight - glm::dot(middle, middle));
    // A disc of radius r has the variance r²/2.
    return GlossImage{sum,
                      around.at(static_cast<float>(middle.x), static_cast<float>(middle.y)),
                      std::sqrt(2 * variance)};
}

}  // namespace dapple
