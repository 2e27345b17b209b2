#include "render/prepare/glint_search.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr int kMostEvents = 12;
constexpr float kLeastShare = 1e-3F;   // of the light, on a way that is followed
constexpr float kReachPx = 2;          // from the place that is looked from to the glint
constexpr float kLargestPx2 = 6;       // a larger one has no more walks
constexpr float kMostChance = 0.5F;    // of a walk to find it; with more, it has enough
constexpr float kSmallestPx2 = 5e-5F;  // a smaller one is hardly ever met, and not easily found
constexpr float kMargin = 1.2F;        // of the radius, because M is not quite constant
constexpr float kLitBody = 1e-3F;      // luminance of a lit housing over that of the lamp
constexpr float kLeastStrength = 1;    // over white
constexpr float kGlossTail = 2.5F;  // radius where the gloss is weak, over that of its bright part

// The index of the wavelength in the middle of the coordinate.
int middle_of(const WavelengthCoordinate& c) {
    const float middle = 0.5F * (c[c.shortest] + c[c.longest]);
    int nearest = 0;
    for (int j = 0; j < kSpectrumSize; ++j) {
        if (std::abs(c[j] - middle) < std::abs(c[nearest] - middle)) nearest = j;
    }
    return nearest;
}

}  // namespace

GlintSearch::Target GlintSearch::target_of(const Fixture& fixture, const Emitter& emitter) {
    Target target;
    target.centre = emitter.position();
    target.frame = fixture_frame(fixture);
    target.is_round = emitter.is_round();
    target.face = emitter.radius();
    target.body = 0.55F * fixture.housing_diameter;
    if (target.is_round || target.body < 1.5F * target.face) target.body = 0;
    target.luminance =
        emitter.is_point() || !(target.face > 0)
            ? 0.0F
            : static_cast<float>(emitter.peak_candela()) / (kPiF * square(target.face));
    return target;
}

GlintSearch::GlintSearch(const Setup& setup)
    : setup_(setup),
      wavelengths_(make_pass_wavelengths(0, 0)),
      materials_(setup.materials, wavelengths_),
      stage_(setup.stage(materials_, no_light_walks(setup), 0, 0)),
      white_(static_cast<float>(white_of(setup.scene.camera))) {
    const WavelengthCoordinate c(wavelengths_);
    stage_.wavelength_coordinate = c;
    middle_hero_ = middle_of(c);
    for (size_t f = 0; f < setup.emitters.size(); ++f) {
        targets_.push_back(target_of(setup.scene.fixtures[f], setup.emitters[f]));
    }
}

void GlintSearch::search(const Vec2& raster, std::vector<FoundGlint>& found) const {
    follow(SmoothChain(stage_, middle(raster)), raster, found);
}

void GlintSearch::follow(SmoothChain chain,
                         const Vec2& raster,
                         std::vector<FoundGlint>& found) const {
    if (chain.events() > 0) look_for_lamps(chain, raster, found);
    while (chain.events() < kMostEvents && chain.arrive()) {
        if (chain.vertex().is_lamp()) return;
        if (chain.pass()) continue;
        for (const SmoothChoice choice : {SmoothChoice::kReflect, SmoothChoice::kTransmit}) {
            if (chain.share() * chain.probability(choice) < kLeastShare) continue;
            SmoothChain branch = chain;
            if (branch.leave(choice)) follow(branch, raster, found);
        }
        return;
    }
}

void GlintSearch::look_for_lamps(const SmoothChain& chain,
                                 const Vec2& raster,
                                 std::vector<FoundGlint>& found) const {
    for (size_t f = 0; f < targets_.size(); ++f) {
        const Target& target = targets_[f];
        if (!(chain.share() * target.luminance > kLeastStrength * white_)) continue;
        const Direction& way_to = chain.edge().direction;
        if (!target.is_round && glm::dot(target.frame.n, way_to) > -0.05F) continue;
        const Way way{static_cast<int>(f), chain.events(), chain.choices()};
        const std::optional<Image> seen = image(way, chain);
        if (!seen || !seen->is_rare()) continue;
        const SmoothChain::Crossing& crossing = seen->crossing;
        const Vec2 step = -(glm::inverse(crossing.per_px) * crossing.at);
        if (!(glm::length(step) < kReachPx)) continue;
        const std::optional<Vec2> at = solve(way, middle(raster));
        if (!at || glm::length(*at - raster) > kReachPx) continue;
        if (const std::optional<Glint> glint = make_glint(way, *at)) {
            found.push_back({*glint, way.lamp, way.events, way.choices});
        }
    }
}

bool GlintSearch::Image::is_rare() const {
    return px2 > kSmallestPx2 && px2 < kLargestPx2 && px2 * chance < kMostChance;
}

std::optional<GlintSearch::Image> GlintSearch::image(const Way& way,
                                                     const SmoothChain& chain) const {
    const Target& target = targets_[static_cast<size_t>(way.lamp)];
    const std::optional<SmoothChain::Crossing> crossing =
        chain.cross(target.centre, target.is_round ? Frame(chain.edge().direction) : target.frame);
    if (!crossing) return std::nullopt;
    const float radius = target.face + chain.gloss() * crossing->distance;
    const float px2 = kPiF * square(radius) / std::abs(glm::determinant(crossing->per_px));
    return Image{*crossing, radius, px2, chain.chance()};
}

std::optional<SmoothChain> GlintSearch::retrace(const Way& way, const LensStart& start) const {
    SmoothChain chain(stage_, start);
    while (chain.events() < way.events) {
        if (!chain.arrive()) return std::nullopt;
        if (chain.pass()) continue;
        const bool transmits = ((way.choices >> static_cast<uint32_t>(chain.events())) & 1U) != 0;
        const SmoothChoice choice = transmits ? SmoothChoice::kTransmit : SmoothChoice::kReflect;
        if (!(chain.probability(choice) > 0) || !chain.leave(choice)) return std::nullopt;
    }
    return chain;
}

std::optional<Vec2> GlintSearch::solve(const Way& way, LensStart start) const {
    constexpr int kMostSteps = 7;
    constexpr float kLongestStep = 0.7F;  // px
    constexpr float kNear = 0.2F;         // of the image's radius
    constexpr float kShrinks = 0.8F;      // a step that does not is given up
    float last = kInfinity;               // px, the step before
    for (int i = 0; i < kMostSteps; ++i) {
        const std::optional<SmoothChain> chain = retrace(way, start);
        if (!chain) return std::nullopt;
        const std::optional<Image> seen = image(way, *chain);
        if (!seen) return std::nullopt;
        const SmoothChain::Crossing& crossing = seen->crossing;
        Vec2 step = -(glm::inverse(crossing.per_px) * crossing.at);
        if (glm::length(crossing.at) < kNear * seen->radius) return start.raster + step;
        const float length = glm::length(step);
        if (!(length < 2 * kReachPx)) return std::nullopt;
        if (!(length < kShrinks * last || length > kLongestStep)) return std::nullopt;
        last = length;
        if (length > kLongestStep) step *= kLongestStep / length;
        start.raster += step;
    }
    return std::nullopt;
}

float GlintSearch::strength(const Way& way, SmoothChain chain) const {
    const Target& target = targets_[static_cast<size_t>(way.lamp)];
    const float share = chain.share();
    while (chain.arrive()) {
        const Vertex& vertex = chain.vertex();
        if (vertex.at.lamp == way.lamp) {
            const Emitter& emitter = setup_.emitters[static_cast<size_t>(way.lamp)];
            const float seen = emitter.eval(vertex.at.position, vertex.wo_world).luminance;
            const float body = target.body > 0 ? kLitBody * target.luminance : 0.0F;
            return share * std::max(seen, body) / white_;
        }
        if (chain.pass()) continue;
        const bool on_body = glm::distance(vertex.at.position, target.centre) < 1.5F * target.body;
        return on_body ? share * kLitBody * target.luminance / white_ : 0.0F;
    }
    return 0;
}

bool GlintSearch::find_shifts(const Way& way, const SmoothChain& chain, Glint& glint) const {
    const WavelengthCoordinate& c = stage_.wavelength_coordinate;
    glint.c = c[middle_hero_];
    if (chain.is_dispersed()) {
        std::array<Vec2, 2> slopes{};
        std::array<float, 2> steps{};
        for (size_t i = 0; i < 2; ++i) {
            LensStart start = middle(glint.centre);
            start.hero = i == 0 ? c.shortest : c.longest;
            const std::optional<Vec2> at = solve(way, start);
            if (!at) return false;
            steps[i] = c[start.hero] - glint.c;
            slopes[i] = (*at - glint.centre) / steps[i];
        }
        glint.per_c2 = (slopes[1] - slopes[0]) / (steps[1] - steps[0]);
        glint.per_c = slopes[0] - steps[0] * glint.per_c2;
    }
    if (setup_.lens.is_pinhole()) return true;
    for (int i = 0; i < 2; ++i) {
        LensStart start = middle(glint.centre);
        start.aperture[i] = 0.75F;  // half the radius, by sample_disk()
        const std::optional<Vec2> at = solve(way, start);
        if (!at) return false;
        glint.per_aperture[i] = 2.0F * (*at - glint.centre);
    }
    return true;
}

std::optional<Glint> GlintSearch::make_glint(const Way& way, const Vec2& raster) const {
    const Target& target = targets_[static_cast<size_t>(way.lamp)];
    const std::optional<SmoothChain> chain = retrace(way, middle(raster));
    if (!chain) return std::nullopt;
    const std::optional<Image> seen = image(way, *chain);
    if (!seen || !seen->is_rare()) return std::nullopt;
    Glint glint;
    const bool is_gloss = chain->gloss() > 0;
    // A gloss spreads the lamp's light over the wider image.
    const float spread = square(target.face / seen->radius);
    glint.strength = spread * strength(way, *chain);
    if (!(glint.strength > kLeastStrength)) return std::nullopt;
    glint.worth = square(glint.strength) * seen->px2 / seen->chance;
    glint.centre = raster;
    glint.lamp_per_px = seen->crossing.per_px;
    glint.px_per_lamp = glm::inverse(glint.lamp_per_px);
    glint.radii[0] = kMargin * seen->radius;
    const float wide = is_gloss ? kGlossTail * seen->radius : target.body;
    if (seen->px2 * square(wide / seen->radius) < kLargestPx2) glint.radii[1] = wide;
    if (!find_shifts(way, *chain, glint)) return std::nullopt;
    return glint;
}

}  // namespace dapple
