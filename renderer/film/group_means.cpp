#include "film/group_means.h"

#include <algorithm>
#include <cmath>

namespace dapple {

double GroupMeans::sum() const {
    double total = 0;
    for (const double mean : means) total += mean;
    return total;
}

std::optional<double> GroupMeans::stderr_of_sum() const {
    return stderr_of_sum(std::vector<double>(groups(), 1.0));
}

std::optional<double> GroupMeans::stderr_of_sum(std::span<const double> weights) const {
    if (covariances.size() != groups() * groups() || groups() == 0) return std::nullopt;
    double variance = 0;
    for (size_t g = 0; g < groups(); ++g) {
        for (size_t h = 0; h < groups(); ++h) {
            variance += weights[g] * weights[h] * covariances[g * groups() + h];
        }
    }
    return std::sqrt(std::max(0.0, variance));
}

void GroupMeans::scale(std::span<const double> factors) {
    for (size_t g = 0; g < groups(); ++g) means[g] *= factors[g];
    for (size_t i = 0; i < covariances.size(); ++i) {
        covariances[i] *= factors[i / groups()] * factors[i % groups()];
    }
}

GroupMeans make_group_means(std::span<const double> passes, size_t groups) {
    GroupMeans result{std::vector<double>(groups, 0.0), {}};
    if (groups == 0) return result;
    const size_t n = passes.size() / groups;
    if (n == 0) return result;
    const auto count = static_cast<double>(n);
    for (size_t i = 0; i < n * groups; ++i) result.means[i % groups] += passes[i] / count;
    if (n < 2) return result;
    result.covariances.assign(groups * groups, 0.0);
    for (size_t p = 0; p < n; ++p) {
        for (size_t i = 0; i < groups * groups; ++i) {
            const size_t g = i / groups;
            const size_t h = i % groups;
            const double a = passes[p * groups + g] - result.means[g];
            const double b = passes[p * groups + h] - result.means[h];
            result.covariances[i] += a * b / (count * (count - 1));
        }
    }
    return result;
}

}  // namespace dapple
