// Multiple importance weights by recursion (Veach 1995, balance heuristic; in the recursive form
// of Georgiev 2012, "Implementing vertex connection and merging") (E45).
//
// A walk carries, for the vertex it stands at, sums over the other ways in which the path so far
// could have been made, each divided by the density of the way it was made:
//   join      this edge is a connection instead of a step of the walk            (dVCM there)
//   reversed  an earlier edge is the connection and this one is walked from the
//             other end, without the density of that last step                    (dVC there)
// Densities are per unit area, times the number of samples of the technique, so that budgets enter
// by themselves. Techniques in use: lamp met by a camera walk, next-event estimation, light vertex
// joined to the lens. Connections between inner vertices are not made, so `join` counts only on
// the first edge of a walk; `kJoinInnerEdges` is the switch. Photon merging adds a third sum here.
#pragma once

namespace dapple {

inline constexpr bool kJoinInnerEdges = false;

struct PartialWeights {
    float join = 0;
    float reversed = 0;

    // The walk met a surface after `distance2` (m²) at `cos_hit` to its geometric normal.
    void arrive(float distance2, float cos_hit) {
        join *= distance2 / cos_hit;
        reversed /= cos_hit;
    }

    // On its way it passed straight through a sheet, chosen with this probability. A connection
    // over the same edge would not have had to choose.
    void pass_straight(float probability) { join /= probability; }

    // What `join` is worth when the walk's edge number `edge` (from 1) is asked for.
    float joinable(int edge) const { return edge == 1 || kJoinInnerEdges ? join : 0.0F; }

    // It leaves at `cos_out`, drawn with `pdf`; the other way round `pdf_reverse` (per sr; for a
    // delta lobe the probabilities of the choice).
    void scatter(float pdf, float pdf_reverse, float cos_out, int edge) {
        reversed = cos_out / pdf * (reversed * pdf_reverse + joinable(edge));
        join = 1.0F / pdf;
    }
    void scatter_delta(float pdf, float pdf_reverse, float cos_out) {
        reversed *= cos_out * pdf_reverse / pdf;
        join = 0;
    }
};

}  // namespace dapple
