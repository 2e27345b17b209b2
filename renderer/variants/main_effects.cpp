#include "variants/main_effects.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "variants/plan_matrix.h"

namespace dapple {

namespace {

// What is known of the used variants.
struct Observations {
    std::vector<size_t> used;
    std::vector<double> values;
    std::vector<double> errors;              // empty: not known
    std::vector<std::vector<size_t>> films;  // the rows of each
    int passes = 0;                          // MainEffects::passes
};

Observations observations_of(const std::vector<Measure>& measures,
                             const std::vector<size_t>& film_of) {
    const bool has_errors = std::any_of(
        measures.begin(), measures.end(), [](const Measure& m) { return m && m.error; });
    Observations seen;
    std::map<size_t, std::vector<size_t>> films;
    for (size_t i = 0; i < measures.size(); ++i) {
        if (!measures[i] || (has_errors && !measures[i].error)) continue;
        films[film_of[i]].push_back(seen.used.size());
        seen.used.push_back(i);
        seen.values.push_back(*measures[i]);
        if (has_errors) seen.errors.push_back(*measures[i].error);
        // Every variant adds the degrees of freedom of its own error.
        if (measures[i].passes > 0) seen.passes += measures[i].passes - (seen.passes > 0 ? 1 : 0);
    }
    for (const auto& [film, rows] : films) seen.films.push_back(rows);
    return seen;
}

double dot(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0;
    for (size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
    return sum;
}

std::vector<double> times(const GramMatrix& matrix, const std::vector<double>& column) {
    std::vector<double> product(matrix.size, 0.0);
    for (size_t i = 0; i < matrix.size; ++i) {
        for (size_t j = 0; j < matrix.size; ++j) product[i] += matrix(i, j) * column[j];
    }
    return product;
}

// One measure's fit on a plan.
class MeasureFit {
  public:
    MeasureFit(const PlanMatrix& plan, const Observations& seen) : plan_(plan), seen_(seen) {
        std::vector<double> right(plan.rows.front().size(), 0.0);
        for (size_t r = 0; r < plan.rows.size(); ++r) {
            for (size_t c = 0; c < right.size(); ++c) {
                right[c] += plan.rows[r][c] * seen.values[r];
            }
        }
        terms_ = times(plan.inverse, right);
        find_rest();
    }

    size_t columns() const { return plan_.rows.front().size(); }
    double mean() const { return terms_.front(); }
    // The part of a sum of columns.
    double value(const std::vector<double>& sum) const { return dot(terms_, sum); }

    // E182
    std::optional<double> error(const std::vector<double>& sum) const {
        if (seen_.errors.empty()) return std::nullopt;
        const std::vector<double> weights = times(plan_.inverse, sum);
        double variance = 0;
        double squares = 0;
        for (const std::vector<size_t>& film : seen_.films) {
            double apart = 0;
            double together = 0;
            for (const size_t r : film) {
                const double c = dot(plan_.rows[r], weights);
                squares += c * c;
                apart += std::pow(c * seen_.errors[r], 2);
                together += c * seen_.errors[r];
            }
            variance += std::max(apart, together * together);
        }
        return std::sqrt(variance + extra_ * squares);
    }

    std::optional<double> unexplained() const { return unexplained_; }
    std::optional<double> noise() const { return noise_; }

  private:
    // The squares that are left, and how much of them noise makes.
    void find_rest() {
        const size_t count = seen_.values.size();
        if (count <= plan_.fitted.size()) return;
        double mean = 0;
        for (const double y : seen_.values) mean += y / static_cast<double>(count);
        double all = 0;
        double rest = 0;
        for (size_t r = 0; r < count; ++r) {
            all += std::pow(seen_.values[r] - mean, 2);
            rest += std::pow(seen_.values[r] - value(plan_.rows[r]), 2);
        }
        if (!(all > 1e-18 * static_cast<double>(count) * mean * mean)) return;
        unexplained_ = rest / all;
        if (seen_.errors.empty()) return;
        const auto [apart, most] = expected_rest();
        noise_ = most / all;
        const double excess = (rest - apart) / static_cast<double>(count - plan_.fitted.size());
        if (!plan_.is_complete) extra_ = std::max(0.0, excess);
    }

    // The squares that noise alone leaves: of independent variants, and the worse of E182.
    std::pair<double, double> expected_rest() const {
        double independent = 0;
        double most = 0;
        for (const std::vector<size_t>& film : seen_.films) {
            double apart = 0;
            double squares = 0;
            std::vector<double> sum(plan_.rows.front().size(), 0.0);
            for (const size_t r : film) {
                const std::vector<double>& row = plan_.rows[r];
                const double square = seen_.errors[r] * seen_.errors[r];
                squares += square;
                apart += square * (1 - dot(row, times(plan_.inverse, row)));
                for (size_t c = 0; c < sum.size(); ++c) sum[c] += seen_.errors[r] * row[c];
            }
            independent += apart;
            most += std::max(apart, squares - dot(sum, times(plan_.inverse, sum)));
        }
        return {independent, most};
    }

    const PlanMatrix& plan_;
    const Observations& seen_;
    std::vector<double> terms_;
    double extra_ = 0;  // s² of E182
    std::optional<double> unexplained_, noise_;
};

KnobEffect knob_effect(const Factor& factor,
                       const PlanFactor& own,
                       const MeasureFit& fit,
                       int passes) {
    const size_t columns = fit.columns();
    KnobEffect effect;
    effect.apart = own.unknown;
    if (own.columns.empty() || !own.unknown.empty()) return effect;
    for (size_t l = 0; l < own.count(); ++l) {
        const std::vector<double> sum = own.effect_of(l, columns);
        const std::string& name = factor.levels[own.is_line ? l : own.levels[l]];
        effect.levels.push_back({name, fit.mean() + fit.value(sum), fit.error(sum)});
        if (effect.levels[l].mean < effect.levels[effect.low].mean) effect.low = l;
        if (effect.levels[l].mean > effect.levels[effect.high].mean) effect.high = l;
    }
    std::vector<double> difference = own.effect_of(effect.high, columns);
    const std::vector<double> low = own.effect_of(effect.low, columns);
    for (size_t c = 0; c < columns; ++c) difference[c] -= low[c];
    effect.moved_error = fit.error(difference);
    const auto count = static_cast<double>(own.count());
    const double z = std::sqrt(4 + 2 * std::log(count * (count - 1) / 2));  // E183
    const double widened = z * errors_to_tell_apart(passes) / 2;
    effect.beyond_noise = effect.moved_error && effect.moved() > widened * *effect.moved_error;
    return effect;
}

}  // namespace

MainEffects fit_main_effects(const std::vector<Factor>& factors,
                             const std::vector<Measure>& measures,
                             const std::vector<size_t>& film_of) {
    MainEffects effects;
    const Observations seen = observations_of(measures, film_of);
    effects.variants = seen.used.size();
    effects.passes = seen.passes;
    if (seen.used.empty()) return effects;
    const PlanMatrix plan = make_plan_matrix(factors, seen.used);
    const MeasureFit fit(plan, seen);
    effects.mean = fit.mean();
    effects.unexplained_share = fit.unexplained();
    effects.noise_share = fit.noise();
    for (size_t k = 0; k < factors.size(); ++k) {
        effects.knobs.push_back(knob_effect(factors[k], plan.factors[k], fit, seen.passes));
        effects.knobs.back().factor = k;
    }
    return effects;
}

}  // namespace dapple
