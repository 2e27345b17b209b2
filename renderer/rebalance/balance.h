// The dimmers that give the light the user wants: the other way round from rebalancing.
//
//   minimise Σ_t (log2 N_t(d) - log2 D_t(d) - w_t)² + λ Σ_f (log2 d_f - log2 d_f0)²
//   with 2^-10 ≤ d_f ≤ 1                                                                    (E174)
// d are the dimmers, d_f0 those of the film, N_t the light that target t names, D_t that of the
// other side of a ratio (else 1), w_t the wanted value. Everything is in stops: an error of a stop
// counts the same in the light and in the dark, ratios become differences, and dimmers stay above
// 0. λ is so small that it only decides between dimmers that meet the targets equally well; it
// keeps them near those of the film.
//
// Ratios alone say nothing about how bright the light is. Then the brighter side of each ratio
// keeps its level, by one more term for each:
//   κ (log2 N_t(d) - log2 N_t(d0))²,  κ = 1e-3; D_t in place of N_t if w_t < 0              (E175)
// κ is above λ, so the other fixtures move; and far below 1, so the ratios come first.
//
// Where targets are missed, or dimmers are at their limits, what is left over would drive fixtures
// far for next to nothing. So a fixture f stays as it is in the film if
//   Δm < τ min(1, Δc),  τ = 0.1 stop                                                        (E174)
// with Δm the stops by which the targets, or the held levels below, are missed more without f (root
// of the sum of squares), and Δc the stops of dimmers (sum of their absolute changes) that are
// saved. The least important fixture goes first, and Δm counts from the balance of all fixtures, so
// no target is lost.
//
// Windows have no dimmer and stay as they are. So do fixtures that are dark in the film.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "develop/film_record.h"
#include "rebalance/target.h"

namespace dapple {

inline constexpr double kLeastDimmer = 0x1p-10;
inline constexpr double kReachedStops = 0.1;  // a target within this is reached
inline constexpr double kIdleStops = 0.1;     // τ; not above kReachedStops
inline constexpr double kLeastLight = 1e-12;  // lx or cd/m²; less is dark

struct TargetResult {
    Target target;
    double before = 0;  // log2 of the light or of the ratio; -infinity where it is dark
    double after = 0;
    std::optional<double> stderr_stops;  // of `after`; nothing if it is not known

    double missed_stops() const { return after - target.wanted; }  // above 0: too bright
    bool is_reached() const {
        return missed_stops() < kReachedStops && missed_stops() > -kReachedStops;
    }
};

// The level that is held where only ratios are wanted.
struct HeldLevel {
    LightSpot light;
    double before = 0;  // log2 of the light
    double after = 0;

    double moved_stops() const { return after - before; }
};

struct Balance {
    std::vector<Fixture> fixtures;  // the film's, with the new dimmers
    std::vector<TargetResult> results;
    std::vector<HeldLevel> held;  // empty if a target says how bright the light is
};

// `kept`: indices of fixtures that keep their dimmers. Every target must be reachable
// (check_targets). `most_dimmer`: above 1 to learn how much light is wanting.
Balance find_balance(const FilmRecord& film,
                     const std::vector<Target>& targets,
                     const std::vector<size_t>& kept,
                     double most_dimmer = 1);

// Reports targets to which no fixture sends light that may be changed.
void check_targets(const FilmRecord& film,
                   const std::vector<Target>& targets,
                   const std::vector<size_t>& kept,
                   Problems& problems);

}  // namespace dapple
