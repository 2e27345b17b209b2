#include "variants/plan_matrix.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

namespace dapple {

namespace {

constexpr size_t kMostColumns = 200;  // so that the fit takes no time that anyone notices

// Appends the factor's columns to the rows.
void add_line(const Factor& factor, const std::vector<size_t>& used, PlanMatrix& plan) {
    PlanFactor own;
    own.is_line = true;
    double mean = 0;
    double low = factor.at[used.front()];
    double high = low;
    for (const size_t i : used) {
        mean += factor.at[i] / static_cast<double>(used.size());
        low = std::min(low, factor.at[i]);
        high = std::max(high, factor.at[i]);
    }
    if (high > low) {
        const auto coded = [&](double x) { return 2 * (x - mean) / (high - low); };
        own.low = coded(low);
        own.high = coded(high);
        own.columns = {plan.rows.front().size()};
        for (size_t r = 0; r < used.size(); ++r) {
            plan.rows[r].push_back(coded(factor.at[used[r]]));
        }
    }
    plan.factors.push_back(own);
}

void add_levels(const Factor& factor, const std::vector<size_t>& used, PlanMatrix& plan) {
    PlanFactor own;
    std::set<size_t> levels;
    for (const size_t i : used) levels.insert(factor.level[i]);
    own.levels.assign(levels.begin(), levels.end());
    const size_t first = plan.rows.front().size();
    if (first + own.levels.size() <= kMostColumns) {
        for (size_t c = 0; c + 1 < own.levels.size(); ++c) own.columns.push_back(first + c);
    }
    for (size_t r = 0; r < used.size() && !own.columns.empty(); ++r) {
        const size_t level = factor.level[used[r]];
        for (size_t c = 0; c < own.columns.size(); ++c) {
            const double last = level == own.levels.back() ? -1 : 0;
            plan.rows[r].push_back(level == own.levels[c] ? 1 : last);
        }
    }
    plan.factors.push_back(own);
}

// Whether a factor's columns depend on the mean and on those of `others`.
bool depends(const PlanMatrix& plan,
             const GramMatrix& gram,
             size_t factor,
             const std::vector<size_t>& others) {
    std::vector<size_t> columns = {0};
    for (const size_t other : others) {
        const std::vector<size_t>& own = plan.factors[other].columns;
        columns.insert(columns.end(), own.begin(), own.end());
    }
    const std::vector<size_t>& own = plan.factors[factor].columns;
    columns.insert(columns.end(), own.begin(), own.end());
    const std::vector<size_t> found = dependent_columns(gram, columns);
    return std::any_of(found.begin(), found.end(), [&](size_t c) {
        return std::find(own.begin(), own.end(), c) != own.end();
    });
}

// The fewest factors, taken away one by one, that the factor still depends on.
std::vector<size_t> cannot_be_told_from(const PlanMatrix& plan,
                                        const GramMatrix& gram,
                                        size_t factor) {
    std::vector<size_t> others;
    for (size_t k = 0; k < plan.factors.size(); ++k) {
        if (k != factor && !plan.factors[k].columns.empty()) others.push_back(k);
    }
    if (plan.factors[factor].columns.empty() || !depends(plan, gram, factor, others)) return {};
    for (size_t i = others.size(); i-- > 0;) {
        std::vector<size_t> fewer;
        for (size_t k = 0; k < others.size(); ++k) {
            if (k != i) fewer.push_back(others[k]);
        }
        if (depends(plan, gram, factor, fewer)) others = fewer;
    }
    return others;
}

// Those that can be told come first, so that they are never the ones that depend.
std::vector<size_t> independent_columns(const PlanMatrix& plan, const GramMatrix& gram) {
    std::vector<size_t> columns = {0};
    for (const bool told : {true, false}) {
        for (const PlanFactor& f : plan.factors) {
            if (f.unknown.empty() != told) continue;
            columns.insert(columns.end(), f.columns.begin(), f.columns.end());
        }
    }
    for (const size_t c : dependent_columns(gram, columns)) std::erase(columns, c);
    return columns;
}

bool has_all_combinations(const PlanMatrix& plan) {
    std::map<std::vector<double>, size_t> count;
    for (const std::vector<double>& row : plan.rows) ++count[row];
    size_t combinations = 1;
    for (const PlanFactor& f : plan.factors) {
        if (f.is_line) return false;
        combinations *= std::max<size_t>(1, f.levels.size());
        if (combinations > plan.rows.size()) return false;
    }
    const size_t each = count.begin()->second;
    return combinations == count.size() &&
           std::all_of(count.begin(), count.end(), [&](const auto& c) { return c.second == each; });
}

}  // namespace

std::vector<double> PlanFactor::effect_of(size_t level, size_t all_columns) const {
    std::vector<double> sum(all_columns, 0.0);
    if (is_line) {
        sum[columns.front()] = level == 0 ? low : high;
    } else if (level < columns.size()) {
        sum[columns[level]] = 1;
    } else {
        for (const size_t c : columns) sum[c] = -1;
    }
    return sum;
}

PlanMatrix make_plan_matrix(const std::vector<Factor>& factors, const std::vector<size_t>& used) {
    PlanMatrix plan;
    plan.rows.assign(used.size(), {1.0});
    for (const Factor& factor : factors) {
        if (factor.is_line()) {
            add_line(factor, used, plan);
        } else {
            add_levels(factor, used, plan);
        }
    }
    const GramMatrix gram = make_gram_matrix(plan.rows);
    for (size_t k = 0; k < factors.size(); ++k) {
        plan.factors[k].unknown = cannot_be_told_from(plan, gram, k);
    }
    plan.fitted = independent_columns(plan, gram);
    plan.inverse = invert(gram, plan.fitted);
    plan.is_complete = has_all_combinations(plan);
    return plan;
}

}  // namespace dapple
