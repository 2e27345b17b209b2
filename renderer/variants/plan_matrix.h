// The columns of a plan of experiments: the mean, and for each factor its effects coded columns.
//
// A factor of L levels has L - 1 columns: column l is 1 at level l, and all are -1 at the last
// level, so that the effects of all levels add up to 0. A line has one column, (x - mean x) / (half
// the range of x). Private to this folder.
#pragma once

#include <vector>

#include "variants/factors.h"
#include "variants/gram_matrix.h"

namespace dapple {

struct PlanFactor {
    std::vector<size_t> levels;   // that the used variants have
    std::vector<size_t> columns;  // empty: it has one level
    double low = 0, high = 0;     // of a line: its column at the two ends
    bool is_line = false;
    std::vector<size_t> unknown;  // factors that it cannot be told from

    // The sum of columns that is the effect of a level; of a line, of its low and its high end.
    std::vector<double> effect_of(size_t level, size_t all_columns) const;
    size_t count() const { return is_line ? 2 : levels.size(); }
};

struct PlanMatrix {
    std::vector<std::vector<double>> rows;  // of the used variants
    std::vector<PlanFactor> factors;
    std::vector<size_t> fitted;  // column 0 is the mean; none depends on another
    GramMatrix inverse{0};       // of their Gram matrix
    bool is_complete = false;    // every combination of levels is there equally often
};

// `used` are variants. At least one.
PlanMatrix make_plan_matrix(const std::vector<Factor>& factors, const std::vector<size_t>& used);

}  // namespace dapple
