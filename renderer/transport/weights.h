// Multiple importance weights by recursion (Veach 1995, balance heuristic; in the recursive form
// of Georgiev 2012, "Implementing vertex connection and merging") (E45).
//
// A walk carries, for the vertex it stands at, sums over the other ways in which the path so far
// could have been made, each divided by the density of the way it was made:
//   join      this edge is a connection instead of a step of the walk            (dVCM there)
//   reversed  an earlier edge is the connection and this one is walked from the
//             other end, without the density of that last step                    (dVC there)
// Densities are per unit area, times the number of samples of the technique, so that budgets enter
// by themselves. Techniques in use: lamp met by a camera walk, next-event estimation, a point drawn
// on lit cloth and the lamp asked for from there, light vertex joined to the lens, and photons
// merged with a camera walk. `per_join` is how often the present edge is asked for as a connection
// for once that `join` counts: 1 on the first edge of a walk, on a light walk's second edge from
// cloth the density of sheet sampling (E71), else 0, for other inner vertices are not joined.
//
// Merging at a vertex has the density of the light walk to it times that of the camera walk to it
// times the merging area π r² (E64). "Smooth" events are mirror directions and smooth glass.
// Merging is in use at every vertex but the first that the lens sees where any event towards the
// lamp is smooth, and all vertices between it and the lens are shiny (is_shiny). From dull ones,
// light walks joined to the lens do better.
// What a walk cannot know yet stands in sums of its own: a camera walk's `waiting` sum holds once
// it meets a smooth event and then goes to `merged`. A light walk's `shiny` sum holds as long as
// the vertices after it are shiny.
//
// `reversed` of a camera walk: the light walk is joined to the lens at the first vertex. It stands
// apart from `merged`, for it may count for more than one (E73).
#pragma once

namespace dapple {

struct PartialWeights {
    float join = 0;
    float reversed = 0;
    float merged = 0;
    float waiting = 0;
    float shiny = 0;

    // As they are for meters, which know nothing of photons.
    PartialWeights without_merging() const { return {join, reversed, 0, 0, 0}; }

    // The walk met a surface after `distance2` (m²) at `cos_hit` to its geometric normal.
    void arrive(float distance2, float cos_hit) {
        const float per_cos = 1.0F / cos_hit;
        join *= distance2 * per_cos;
        reversed *= per_cos;
        merged *= per_cos;
        waiting *= per_cos;
        shiny *= per_cos;
    }

    // On its way it passed straight through a sheet, chosen with this probability. A connection
    // over the same edge would not have had to choose.
    void pass_straight(float probability) { join /= probability; }

    // What merging adds at the vertex that a walk leaves.
    struct Merging {
        float waiting = 0;      // the merging area where it is in use if any later event is smooth
        float shiny = 0;        // where it is if all vertices after this one are shiny
        bool is_shiny = false;  // this vertex
    };

    // It leaves at `cos_out`, drawn with `pdf`; the other way round `pdf_reverse` (per sr; for a
    // delta lobe the probabilities of the choice).
    void scatter(
        float pdf, float pdf_reverse, float cos_out, float per_join, const Merging& merging) {
        const float step = cos_out / pdf;
        reversed = step * (reversed * pdf_reverse + per_join * join);
        merged *= step * pdf_reverse;
        waiting = step * (waiting * pdf_reverse + merging.waiting);
        shiny = step * ((merging.is_shiny ? shiny * pdf_reverse : 0.0F) + merging.shiny);
        join = 1.0F / pdf;
    }
    void scatter_delta(float pdf, float pdf_reverse, float cos_out) {
        const float step = cos_out * pdf_reverse / pdf;
        reversed *= step;
        merged = (merged + waiting) * step;
        shiny *= step;
        waiting = 0;
        join = 0;
    }
};

}  // namespace dapple
