// The search for glints from one place of the frame (find_glints.h).
#pragma once

#include <optional>
#include <vector>

#include "render/glint_map.h"
#include "render/prepare/setup.h"
#include "transport/smooth_chain.h"

namespace dapple {

// A glint with the way on which the lens sees it.
struct FoundGlint {
    Glint glint;
    int lamp = -1;
    int events = 0;
    uint32_t choices = 0;  // SmoothChain::choices()
};

class GlintSearch {
  public:
    explicit GlintSearch(const Setup& setup);

    // Adds the glints that are found from a raster position.
    void search(const Vec2& raster, std::vector<FoundGlint>& found) const;

  private:
    // The lamps as the search sees them.
    struct Target {
        Point centre{0};
        Frame frame;
        bool is_round = false;
        float face = 0;  // m, radii
        float body = 0;
        float luminance = 0;  // cd/m², in the middle of the beam
    };
    // Where a way crosses a lamp's plane.
    struct Image {
        SmoothChain::Crossing crossing;
        float radius = 0;  // m, of what is bright there: the lamp's face, or more after a gloss
        float px2 = 0;     // its area in the frame
        float chance = 1;  // SmoothChain::chance()

        // Whether the even walks of its pixels find it too rarely.
        bool is_rare() const;
    };
    // A way, by its choices.
    struct Way {
        int lamp = -1;
        int events = 0;
        uint32_t choices = 0;
    };
    static Target target_of(const Fixture& fixture, const Emitter& emitter);

    void follow(SmoothChain chain, const Vec2& raster, std::vector<FoundGlint>& found) const;
    void look_for_lamps(const SmoothChain& chain,
                        const Vec2& raster,
                        std::vector<FoundGlint>& found) const;
    // The start of the way on which the lens sees the middle of the lamp; nothing if none is near.
    std::optional<Vec2> solve(const Way& way, LensStart start) const;
    std::optional<SmoothChain> retrace(const Way& way, const LensStart& start) const;
    std::optional<Image> image(const Way& way, const SmoothChain& chain) const;
    std::optional<Glint> make_glint(const Way& way, const Vec2& raster) const;
    // The luminance that is seen at the end of the chain, over white; 0 if the lamp is hidden.
    float strength(const Way& way, SmoothChain chain) const;
    // How the glint moves. False if it cannot be told.
    bool find_shifts(const Way& way, const SmoothChain& chain, Glint& glint) const;
    LensStart middle(const Vec2& raster) const { return {raster, Vec2(0.5F), middle_hero_}; }

    const Setup& setup_;
    Wavelengths wavelengths_;
    PassMaterials materials_;
    Stage stage_;
    std::vector<Target> targets_;
    float white_;          // cd/m²
    int middle_hero_ = 0;  // of the wavelength in the middle of the coordinate
};

}  // namespace dapple
