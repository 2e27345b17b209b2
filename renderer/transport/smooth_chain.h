// A way from the lens that only mirrors, smooth glass and smooth coats turn, with a given choice at
// each of them, and how the way moves when its raster position moves (photon_differential.h). The
// last surface may have a narrow gloss: the way leaves it in the mirror direction.
#pragma once

#include <optional>

#include "transport/photon_differential.h"

namespace dapple {

// What a smooth surface does with the light that the lens sees in it.
enum class SmoothChoice : uint8_t { kReflect, kTransmit };

class SmoothChain {
  public:
    SmoothChain(const Stage& stage, const LensStart& start);

    // Where the present edge crosses a plane, and how that place moves.
    struct Crossing {
        float distance = 0;   // m, along the edge
        Vec2 at{0};           // m, from `centre` along the plane's axes
        glm::mat2 per_px{0};  // change of `at` with the raster position, m/px
        Vec2 per_c{0};        // with the wavelength coordinate, m µm²
    };
    // `plane`: its normal is n. Nothing if the edge hardly crosses it.
    std::optional<Crossing> cross(const Point& centre, const Frame& plane) const;

    // Follows the present edge to its end. False if nothing is there.
    bool arrive();
    const Vertex& vertex() const { return vertex_; }
    float edge_length() const { return length_; }  // m; infinite if nothing is at its end
    const Ray& edge() const { return edge_; }
    int hero() const { return walk_.light.hero; }
    bool is_dispersed() const { return walk_.light.monochromatic; }

    // The probability of a choice at the vertex; 0 if the surface does not allow it.
    float probability(SmoothChoice choice) const;
    // Goes on with that choice. False if no light goes there.
    bool leave(SmoothChoice choice);
    // Goes straight on where the surface lets light pass unbent. False if it lets none pass.
    bool pass();

    // The share of the light that comes this way, and the choices so far, the first one in the
    // lowest bit: 1 for kTransmit.
    float share() const { return share_; }
    uint32_t choices() const { return choices_; }
    // The probability with which a usual camera walk, which splits once, makes the same choices.
    float chance() const { return chance_; }
    int events() const { return events_; }
    // The angle from the edge's direction within which the last surface's gloss is bright, rad; 0
    // after smooth surfaces.
    float gloss() const { return gloss_; }

  private:
    bool is_gloss() const;
    // Leaves a gloss in the mirror direction. False if that points below the surface.
    bool leave_gloss();

    const Stage& stage_;
    Walk walk_;
    Vertex vertex_;
    PhotonDifferential differential_;
    glm::mat2 axes_per_px_{0};  // of the first direction, along the differential's two axes
    Ray edge_;
    float length_ = 0;
    float length_before_ = 0;  // of the walk's edge before its last ray
    float share_ = 1;
    float chance_ = 1;
    bool has_split_ = false;
    uint32_t choices_ = 0;
    int events_ = 0;
    float gloss_ = 0;
};

}  // namespace dapple
