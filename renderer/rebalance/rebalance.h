// A film made anew from its light groups, with other dimmers and colours, without rendering.
//
// Measured light, clean frame, meters, regions and their standard errors follow exactly, as far as
// the colours do (relight.h): errors of means come from the covariances of the groups (E112). Of
// single pixels only the error of all light together is kept. Its change is estimated: each group's
// error is taken as the same share of its light, and as independent of the others':
//   σ' = σ √(Σ Y'_g² / Σ Y_g²)                                                              (E173)
#pragma once

#include "develop/film_record.h"
#include "rebalance/layer_changes.h"

namespace dapple {

// `changes`: one for each of the film's layers. `wanted` becomes the film's fixtures.
FilmRecord rebalance(FilmRecord film,
                     const std::vector<Fixture>& wanted,
                     const std::vector<LayerChange>& changes);

// The new light of each group in a mean of the old one.
GroupMeans change_means(const GroupMeans& means,
                        const std::vector<LayerChange>& changes,
                        std::vector<double> new_means);
std::vector<double> change_lux(const MeterRecord& meter, const std::vector<LayerChange>& changes);

}  // namespace dapple
