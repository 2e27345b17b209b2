#include "rebalance/balance_search.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

using Eigen::Index;

constexpr double kStayNear = 1e-6;  // λ
constexpr double kHold = 1e-3;      // κ
constexpr int kMostSteps = 200;
constexpr double kAtLimit = 1e-3;  // stops

const double kLow = std::log2(kLeastDimmer);

// The light of one side with the shares of the fixtures in it.
struct Side {
    double log_light = 0;
    std::vector<double> shares;
};

Side side_of(const std::vector<double>& light) {
    double sum = 0;
    for (const double l : light) sum += l;
    Side side{std::log2(std::max(sum, kLeastLight)), light};
    for (double& share : side.shares) share /= std::max(sum, kLeastLight);
    return side;
}

}  // namespace

Spots spots_at(const FilmRecord& film, const LightSpot& light) {
    return {film, {"", light, std::nullopt, TargetUnit::kLux, 0}};
}

bool may_change(const FilmRecord& film, size_t fixture, const std::vector<size_t>& kept) {
    return !film.fixtures[fixture].is_window && has_light(film, fixture) &&
           std::find(kept.begin(), kept.end(), fixture) == kept.end();
}

BalanceSearch::BalanceSearch(const FilmRecord& film,
                             const std::vector<Target>& targets,
                             const std::vector<HeldLevel>& held,
                             const std::vector<size_t>& kept,
                             double most)
    : film_(film), targets_(targets.size()), high_(std::log2(most)) {
    for (const Target& t : targets) goals_.push_back({Spots(film, t), t.wanted, 1});
    for (const HeldLevel& h : held) {
        goals_.push_back({spots_at(film, h.light), h.before, kHold});
    }
    for (size_t f = 0; f < film.fixtures.size(); ++f) {
        if (may_change(film, f, kept)) free_.push_back(f);
    }
    start_ = Vector(static_cast<Index>(free_.size()));
    for (size_t i = 0; i < free_.size(); ++i) {
        const double dimmer = film.fixtures[free_[i]].dimmer;
        start_[static_cast<Index>(i)] = std::log2(std::clamp(dimmer, kLeastDimmer, 1.0));
    }
}

std::vector<Fixture> BalanceSearch::find() const {
    return fixtures_at(leave_idle(minimise(std::vector<bool>(free_.size(), false))));
}

// A projected Levenberg-Marquardt iteration: dimmers at a limit that would leave it stay there for
// this step.
BalanceSearch::Found BalanceSearch::minimise(const std::vector<bool>& stays) const {
    Vector x = start_;
    double damping = 1e-3;
    Point here = look(x);
    for (int step = 0; step < kMostSteps && damping < 1e12; ++step) {
        const Vector next = step_from(x, here, damping, stays);
        const Point there = look(next);
        if (!(there.cost < here.cost)) {
            damping *= 10;
            continue;
        }
        const bool is_done = (next - x).norm() < 1e-9;
        x = next;
        here = there;
        damping = std::max(1e-12, damping / 10);
        if (is_done) break;
    }
    return {x, missed_at(here, 0, targets_), missed_at(here, targets_, goals_.size())};
}

// In an exact balance the least change is a good one. Where dimmers are at their limits, or targets
// are missed, what is left over drives fixtures far for next to nothing.
bool BalanceSearch::may_be_idle(const Found& best, Index i) const {
    if (std::abs(best.x[i] - start_[i]) < kAtLimit) return false;
    const bool is_at_limit = best.x[i] > high_ - kAtLimit || best.x[i] < kLow + kAtLimit;
    return is_at_limit || best.missed >= kReachedStops;
}

// Fixtures go back to the film's dimmers, the least important first, by the rule of E174.
BalanceSearch::Vector BalanceSearch::leave_idle(const Found& best) const {
    std::vector<bool> stays(free_.size(), false);
    Vector x = best.x;
    for (;;) {
        const double change = (x - start_).lpNorm<1>();
        std::optional<size_t> idle;
        Found least;
        for (size_t i = 0; i < free_.size(); ++i) {
            if (stays[i] || !may_be_idle(best, static_cast<Index>(i))) continue;
            stays[i] = true;
            const Found without = minimise(stays);
            stays[i] = false;
            const double saved = change - (without.x - start_).lpNorm<1>();
            const double lost = without.lost_against(best);
            if (lost >= kIdleStops * std::min(1.0, saved)) continue;
            if (idle && lost >= least.lost_against(best)) continue;
            idle = i;
            least = without;
        }
        if (!idle) return x;
        stays[*idle] = true;
        x = least.x;
    }
}

std::vector<Fixture> BalanceSearch::fixtures_at(const Vector& x) const {
    std::vector<Fixture> fixtures = film_.fixtures;
    for (size_t i = 0; i < free_.size(); ++i) {
        const auto at = static_cast<Index>(i);
        // The logarithm of a dimmer does not keep all of its digits.
        if (x[at] == start_[at]) continue;
        fixtures[free_[i]].dimmer = static_cast<float>(std::exp2(x[at]));
    }
    return fixtures;
}

BalanceSearch::Point BalanceSearch::look(const Vector& x) const {
    const auto changes = make_layer_changes(film_, fixtures_at(x));
    const auto rows = static_cast<Index>(goals_.size());
    Point point{Vector(rows), Matrix::Zero(rows, x.size()), 0};
    for (size_t g = 0; g < goals_.size(); ++g) {
        const Goal& goal = goals_[g];
        const auto row = static_cast<int>(g);
        const double root = std::sqrt(goal.weight);
        const Side light = side_of(goal.spots.light.by_fixture(changes));
        point.residuals[row] = root * (light.log_light - goal.wanted);
        // d log2 Σ l_f / d log2 d_f is the fixture's share of the light.
        add_shares(light.shares, root, point.slopes, row);
        if (!goal.spots.against) continue;
        const Side against = side_of(goal.spots.against->by_fixture(changes));
        point.residuals[row] -= root * against.log_light;
        add_shares(against.shares, -root, point.slopes, row);
    }
    point.cost = point.residuals.squaredNorm() + kStayNear * (x - start_).squaredNorm();
    return point;
}

double BalanceSearch::missed_at(const Point& point, size_t first, size_t last) const {
    double sum = 0;
    for (size_t g = first; g < last; ++g) {
        const double residual = point.residuals[static_cast<Index>(g)];
        sum += residual * residual / goals_[g].weight;
    }
    return std::sqrt(sum);
}

void BalanceSearch::add_shares(const std::vector<double>& shares,
                               double factor,
                               Matrix& slopes,
                               int row) const {
    for (size_t i = 0; i < free_.size(); ++i) {
        slopes(row, static_cast<Index>(i)) += factor * shares[free_[i]];
    }
}

BalanceSearch::Vector BalanceSearch::step_from(const Vector& x,
                                               const Point& here,
                                               double damping,
                                               const std::vector<bool>& stays) const {
    const Vector gradient = here.slopes.transpose() * here.residuals + kStayNear * (x - start_);
    Matrix matrix = here.slopes.transpose() * here.slopes;
    matrix.diagonal().array() += kStayNear + damping;
    Vector right = -gradient;
    for (Index i = 0; i < x.size(); ++i) {
        const bool is_at_limit = (x[i] <= kLow && right[i] < 0) || (x[i] >= high_ && right[i] > 0);
        if (!is_at_limit && !stays[static_cast<size_t>(i)]) continue;
        matrix.row(i).setZero();
        matrix.col(i).setZero();
        matrix(i, i) = 1;
        right[i] = 0;
    }
    const Vector step = matrix.ldlt().solve(right);
    return (x + step).cwiseMax(kLow).cwiseMin(high_);
}

}  // namespace dapple
