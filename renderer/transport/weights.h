// Multiple importance weights by recursion: the sums that a walk carries (E86).
//
// Balance heuristic of Veach 1995, in the recursive form of Georgiev 2012, "Implementing vertex
// connection and merging". At its present vertex, a walk carries sums over the other ways in which
// the path so far could have been made. Every term is the density of another way divided by the
// density of the way taken. Densities are per unit area and multiplied by the technique's number of
// samples, so that budgets need no separate treatment. technique_weights.h turns the sums of the
// two ends of a path into the weight of one technique.
//
// Seven techniques share one set of weights: a sensor walk meets a lamp; a point of a lamp is
// sampled from a vertex (next-event estimation); a point of a lamp is sampled by way of a sampled
// point on lit cloth; a light walk's vertex is joined to a sensor; a light walk falls on a meter's
// receptor; photons are merged with a camera walk; a camera walk's first rough vertex is connected
// to a stored vertex of a light walk (connection_table.h).
//
// Merging at a vertex has the density of the light walk that reaches it, times the density of the
// camera walk that reaches it, times the merging area π r² (E92). Photons are merged at a vertex if
//   - the lens does not see the vertex first,
//   - some event towards the lamp is focusing (path_history.h),
//   - every vertex between it and the lens is shiny.
// Elsewhere light walks joined to the lens have less noise. The conditions depend on the path
// alone, so every technique can evaluate them. Where one of them depends on a later part of the
// walk, the walk keeps the term in a sum of its own (`waiting`, `shiny`).
#pragma once

#include "materials/scatter.h"
#include "transport/path_history.h"

namespace dapple {

struct PartialWeights {
    // The present edge is a connection instead of a step of the walk (dVCM in Georgiev 2012).
    float join = 0;
    // An earlier edge is the connection, and the present edge is walked from the other end; without
    // the density of that last step (dVC there). For a camera walk this is the light walk that is
    // joined to the lens at the first vertex. It is kept apart from `merged` because it can count
    // more than once (E91).
    float reversed = 0;
    // Photons are merged at an earlier vertex, and the present edge is walked from the other end.
    float merged = 0;
    // Of a camera walk: the part of `merged` that counts only if a later event is focusing. At the
    // first focusing event it is added to `merged`.
    float waiting = 0;
    // Of a light walk: the part of `merged` that counts only if every later vertex is shiny.
    float shiny = 0;
    // Connection samples of the present edge per unit of `join`: 1 on the first edge of a walk; on
    // the second edge of a light walk from cloth, the density of sheet sampling (E89); else 0.
    float per_join = 1;
    // Of a camera walk on the edge that leaves its first rough vertex: connections of that vertex
    // to stored vertices, per unit of `join` and of the fixture's flux (E95), 1/lm; else 0.
    float per_inner = 0;
    // Of a camera walk: that edge is such a connection, and the present edge is walked from the
    // other end. Per unit of the fixture's flux, 1/lm.
    float inner = 0;

    // The sums as meters use them: photons are not merged with meter walks.
    PartialWeights without_merging() const {
        return {.join = join, .reversed = reversed, .per_join = per_join};
    }

    // The walk met a surface after `distance2` (m²) at `cos_hit` to its geometric normal.
    void arrive(float distance2, float cos_hit) {
        const float per_cos = 1.0F / cos_hit;
        join *= distance2 * per_cos;
        reversed *= per_cos;
        merged *= per_cos;
        inner *= per_cos;
        waiting *= per_cos;
        shiny *= per_cos;
    }

    // The walk passed straight through a surface; `probability` is the probability of that choice.
    // A connection over the same edge makes no such choice.
    void pass_straight(float probability) { join /= probability; }

    // The terms that merging adds at a vertex which the walk leaves by a rough event.
    struct Merging {
        float waiting = 0;      // merging area, if photons are merged here after a focusing event
        float shiny = 0;        // merging area, if photons are merged here before shiny vertices
        bool is_shiny = false;  // whether the present vertex is shiny
        bool focuses = false;   // whether the event is a focusing one
    };

    // The walk leaves by a rough event at `cos_out` to the geometric normal, drawn with `pdf`; the
    // density of the same event in the other direction is `pdf_reverse` (both per sr).
    void scatter(float pdf, float pdf_reverse, float cos_out, const Merging& merging) {
        const float step = cos_out / pdf;
        reversed = step * (reversed * pdf_reverse + per_join * join);
        merged = step * pdf_reverse * (merging.focuses ? merged + waiting : merged);
        inner = step * (inner * pdf_reverse + per_inner * join);
        waiting = step * ((merging.focuses ? 0.0F : waiting * pdf_reverse) + merging.waiting);
        shiny = step * ((merging.is_shiny ? shiny * pdf_reverse : 0.0F) + merging.shiny);
        join = 1.0F / pdf;
        per_join = per_inner = 0;
    }
    // The walk leaves by a smooth event; `pdf` and `pdf_reverse` are the probabilities of the
    // choice.
    void scatter_smooth(float pdf, float pdf_reverse, float cos_out) {
        const float step = cos_out * pdf_reverse / pdf;
        reversed *= step;
        merged = (merged + waiting) * step;
        inner *= step;
        shiny *= step;
        waiting = 0;
        join = 0;
        per_join = per_inner = 0;
    }
};

// Whether merging may be in use at a vertex that a walk with this history leaves by a rough event,
// as far as the history tells.
inline bool merging_may_count(const PathHistory& before, Carrying carrying) {
    // The light walk leaves by a rough event to a later vertex that is joined to the lens. The lens
    // therefore does not see the present vertex first.
    if (carrying == Carrying::kFlux) return before.any_focusing();
    return before.has_events() && before.only_shiny();
}

// What kind of surface a vertex is on, as merging needs it (materials/bsdf.h).
struct SurfaceKind {
    bool is_shiny = false;
    bool focuses = false;
};

// The merging terms of that vertex. `area`: the merging area there, m²; 0 where no photons are
// kept.
inline PartialWeights::Merging merging_terms(const PathHistory& before,
                                             Carrying carrying,
                                             const SurfaceKind& surface,
                                             float area) {
    PartialWeights::Merging terms;
    terms.is_shiny = surface.is_shiny;
    terms.focuses = surface.focuses;
    if (merging_may_count(before, carrying)) {
        (carrying == Carrying::kFlux ? terms.shiny : terms.waiting) = area;
    }
    return terms;
}

}  // namespace dapple
