// The beams of a pass, found along the legs of sensor walks (Jarosz et al. 2011, "Progressive
// photon beams"; Křivánek et al. 2014).
//
// A beam is blurred by a radius r, as a flat ribbon across the leg:
//   L = Φ σ p(θ) T (3/(4 r)) (1 - d²/r²) / sinθ                                             (E99)
// d: distance between the two lines; θ: angle between them; T: both transmittances. Where a beam
// runs almost along the leg, sinθ < 0.1, the ribbon would have no end. There one random point of
// every piece of the beam is blurred instead, as a disc across the leg:
//   L = Φ σ p(θ) T l (2/(π r²)) (1 - d²/r²)                                                (E100)
// d: distance of the point from the leg; l: length of the piece, m. Which of the two counts depends
// on θ alone, so no light counts twice.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

#include "base/random.h"
#include "materials/haze_medium.h"
#include "transport/haze/beam.h"

namespace dapple {

// A place where a leg meets a beam.
struct BeamMeeting {
    float at_leg = 0;         // m along the leg
    float transmittance = 0;  // along the beam up to there
    float kernel = 0;         // K / sinθ, 1/m, or K l, 1/m
};

class BeamMap {
  public:
    // `radius`: of the blur, m. Of every `one_of` beams one is kept, for all. The beams are in the
    // order in which light walks are traced, so sums are the same on any number of threads.
    BeamMap(const std::vector<BeamList>& blocks,
            const HazeMedium& haze,
            float radius,
            uint32_t one_of = 1);

    size_t beams() const { return beams_.size(); }
    size_t bytes() const {
        return beams_.size() * sizeof(Beam) + pieces_.size() * sizeof(Piece) +
               nodes_.size() * sizeof(Node);
    }

    // Calls visit(beam, meeting) for every beam that is met within the first `length` m of the leg.
    template <class Visit>
    void gather(const Point& origin,
                const Direction& direction,
                float length,
                const Visit& visit) const;

  private:
    // Part of a beam, short enough for a tight box.
    struct Piece {
        uint32_t beam = 0;
        float from = 0, to = 0;              // m along the beam
        float depth_from = 0, depth_to = 0;  // optical depth there; between them it is linear
        float point = 0;                     // a random place between `from` and `to`
    };
    struct Node {
        Bounds box;
        uint32_t first = 0;  // its pieces, or the second of its two children; the first is next
        uint32_t count = 0;  // 0: it has children
    };

    void cut(uint32_t beam, const HazeMedium& haze);
    Bounds box_of(const Piece& piece) const;
    uint32_t build(uint32_t first, uint32_t last);
    bool meets(const Piece& piece,
               const Point& origin,
               const Direction& direction,
               float length,
               BeamMeeting& meeting) const;

    static bool hits(const Bounds& box, const Point& origin, const Vec3& per, float length) {
        float from = 0;
        float to = length;
        for (int i = 0; i < 3; ++i) {
            const float a = (box.low[i] - origin[i]) * per[i];
            const float b = (box.high[i] - origin[i]) * per[i];
            from = std::max(from, std::min(a, b));
            to = std::min(to, std::max(a, b));
        }
        return from <= to;
    }

    std::vector<Beam> beams_;
    std::vector<Piece> pieces_;
    std::vector<Node> nodes_;
    float radius_;
    float stand_for_;  // beams for which each one stands
};

template <class Visit>
void BeamMap::gather(const Point& origin,
                     const Direction& direction,
                     float length,
                     const Visit& visit) const {
    if (nodes_.empty()) return;
    const Vec3 per = 1.0F / direction;
    std::array<uint32_t, 64> stack;
    size_t waiting = 0;
    stack[waiting++] = 0;
    while (waiting > 0) {
        const uint32_t n = stack[--waiting];
        const Node& node = nodes_[n];
        if (!hits(node.box, origin, per, length)) continue;
        if (node.count == 0) {
            stack[waiting++] = node.first;
            stack[waiting++] = n + 1;
            continue;
        }
        for (uint32_t i = node.first; i < node.first + node.count; ++i) {
            BeamMeeting meeting;
            if (meets(pieces_[i], origin, direction, length, meeting)) {
                visit(beams_[pieces_[i].beam], meeting);
            }
        }
    }
}

}  // namespace dapple
