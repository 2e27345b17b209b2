// A mean that the passes have measured, apart for each light group: of a meter, of a region or of
// the frame. The covariances come from the spread over passes. They give the standard error of any
// mix of the groups, because the groups of one pass share their random numbers.
//
//   var(Σ w_g m_g) = Σ_g Σ_h w_g w_h C_gh,  C_gh = Σ_p (x_gp - m_g)(x_hp - m_h)/(n (n - 1)) (E112)
#pragma once

#include <optional>
#include <span>
#include <vector>

namespace dapple {

struct GroupMeans {
    std::vector<double> means;        // by light group, cd/m² or lx
    std::vector<double> covariances;  // C, [g * groups + h]; empty: not known, after a single pass

    size_t groups() const { return means.size(); }
    double sum() const;
    // Of the sum of all groups; nothing if it is not known.
    std::optional<double> stderr_of_sum() const;
    // Of the sum of the groups, each with its weight.
    std::optional<double> stderr_of_sum(std::span<const double> weights) const;
    // Multiplies each group's light by its factor.
    void scale(std::span<const double> factors);
};

// `passes`: the means of each pass, [pass * groups + group].
GroupMeans make_group_means(std::span<const double> passes, size_t groups);

}  // namespace dapple
