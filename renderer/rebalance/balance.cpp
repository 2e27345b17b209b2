#include "rebalance/balance.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "rebalance/spot_light.h"

namespace dapple {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double kStayNear = 1e-6;  // λ
constexpr double kHold = 1e-3;      // κ
constexpr int kMostSteps = 200;
constexpr double kLeastLight = 1e-12;  // lx or cd/m²; less is dark

// Targets with the light that each reads.
struct Spots {
    SpotLight light;
    std::optional<SpotLight> against;

    Spots(const FilmRecord& film, const Target& target) : light(film, target.light) {
        if (target.against) against.emplace(film, *target.against);
    }
};

Spots spots_at(const FilmRecord& film, const LightSpot& light) {
    return {film, {"", light, std::nullopt, TargetUnit::kLux, 0}};
}

// What is minimised for one target or one held level: weight · (light - against - wanted)².
struct Goal {
    Spots spots;
    double wanted = 0;
    double weight = 1;
};

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

bool may_change(const FilmRecord& film, size_t f, const std::vector<size_t>& kept) {
    return !film.fixtures[f].is_window && has_light(film, f) &&
           std::find(kept.begin(), kept.end(), f) == kept.end();
}

class Search {
  public:
    Search(const FilmRecord& film,
           const std::vector<Target>& targets,
           const std::vector<HeldLevel>& held,
           const std::vector<size_t>& kept)
        : film_(film) {
        for (const Target& t : targets) goals_.push_back({Spots(film, t), t.wanted, 1});
        for (const HeldLevel& h : held) {
            goals_.push_back({spots_at(film, h.light), h.before, kHold});
        }
        for (size_t f = 0; f < film.fixtures.size(); ++f) {
            if (may_change(film, f, kept)) free_.push_back(f);
        }
        start_ = VectorXd(free_.size());
        for (size_t i = 0; i < free_.size(); ++i) {
            const double dimmer = film.fixtures[free_[i]].dimmer;
            start_[static_cast<Eigen::Index>(i)] = std::log2(std::clamp(dimmer, kLeastDimmer, 1.0));
        }
    }

    // The logarithms of the dimmers, by a projected Levenberg-Marquardt iteration: dimmers at a
    // limit that would leave it stay there for this step.
    VectorXd run() const {
        VectorXd x = start_;
        double damping = 1e-3;
        Point here = look(x);
        for (int step = 0; step < kMostSteps && damping < 1e12; ++step) {
            const VectorXd next = step_from(x, here, damping);
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
        return x;
    }

    std::vector<Fixture> fixtures_at(const VectorXd& x) const {
        std::vector<Fixture> fixtures = film_.fixtures;
        for (size_t i = 0; i < free_.size(); ++i) {
            fixtures[free_[i]].dimmer =
                static_cast<float>(std::exp2(x[static_cast<Eigen::Index>(i)]));
        }
        return fixtures;
    }

  private:
    // The residuals, their derivatives by the free logarithms, and what is minimised.
    struct Point {
        VectorXd residuals;
        MatrixXd slopes;
        double cost = 0;
    };

    Point look(const VectorXd& x) const {
        const auto changes = make_layer_changes(film_, fixtures_at(x));
        const auto rows = static_cast<Eigen::Index>(goals_.size());
        Point point{VectorXd(rows), MatrixXd::Zero(rows, x.size()), 0};
        for (size_t g = 0; g < goals_.size(); ++g) {
            const Goal& goal = goals_[g];
            const auto row = static_cast<Eigen::Index>(g);
            const double root = std::sqrt(goal.weight);
            const Side light = side_of(goal.spots.light.by_fixture(changes));
            point.residuals[row] = root * (light.log_light - goal.wanted);
            // d log2 Σ l_f / d log2 d_f is the fixture's share of the light.
            add_shares(light, root, point.slopes, row);
            if (!goal.spots.against) continue;
            const Side against = side_of(goal.spots.against->by_fixture(changes));
            point.residuals[row] -= root * against.log_light;
            add_shares(against, -root, point.slopes, row);
        }
        point.cost = point.residuals.squaredNorm() + kStayNear * (x - start_).squaredNorm();
        return point;
    }

    void add_shares(const Side& side, double factor, MatrixXd& slopes, Eigen::Index row) const {
        for (size_t i = 0; i < free_.size(); ++i) {
            slopes(row, static_cast<Eigen::Index>(i)) += factor * side.shares[free_[i]];
        }
    }

    VectorXd step_from(const VectorXd& x, const Point& here, double damping) const {
        const VectorXd gradient =
            here.slopes.transpose() * here.residuals + kStayNear * (x - start_);
        MatrixXd matrix = here.slopes.transpose() * here.slopes;
        matrix.diagonal().array() += kStayNear + damping;
        const double low = std::log2(kLeastDimmer);
        VectorXd right = -gradient;
        for (Eigen::Index i = 0; i < x.size(); ++i) {
            const bool is_held = (x[i] <= low && right[i] < 0) || (x[i] >= 0 && right[i] > 0);
            if (!is_held) continue;
            matrix.row(i).setZero();
            matrix.col(i).setZero();
            matrix(i, i) = 1;
            right[i] = 0;
        }
        const VectorXd step = matrix.ldlt().solve(right);
        return (x + step).cwiseMax(low).cwiseMin(0.0);
    }

    const FilmRecord& film_;
    std::vector<Goal> goals_;
    std::vector<size_t> free_;  // fixtures that may change
    VectorXd start_;
};

double log_of(const Spots& spots, const std::vector<LayerChange>& changes) {
    const auto log_sum = [&](const SpotLight& spot) {
        double sum = 0;
        for (const double l : spot.by_fixture(changes)) sum += l;
        return std::log2(std::max(0.0, sum));
    };
    return log_sum(spots.light) - (spots.against ? log_sum(*spots.against) : 0);
}

// The brighter side of each ratio, if there are only ratios; each once.
std::vector<HeldLevel> find_held(const FilmRecord& film,
                                 const std::vector<Target>& targets,
                                 const std::vector<LayerChange>& unchanged) {
    std::vector<HeldLevel> held;
    for (const Target& target : targets) {
        if (!target.against) return {};
        const LightSpot& light = target.wanted < 0 ? *target.against : target.light;
        const bool is_new = std::none_of(
            held.begin(), held.end(), [&](const HeldLevel& h) { return h.light == light; });
        if (!is_new) continue;
        const double level = log_of(spots_at(film, light), unchanged);
        held.push_back({light, level, level});
    }
    return held;
}

// Errors of the two sides of a ratio are taken as independent.
std::optional<double> error_of(const Spots& spots, const std::vector<LayerChange>& changes) {
    const auto light = spots.light.stderr_stops(changes);
    if (!spots.against || !light) return light;
    const auto against = spots.against->stderr_stops(changes);
    return against ? std::optional(std::hypot(*light, *against)) : std::nullopt;
}

bool sends_light(const FilmRecord& film,
                 const LightSpot& spot,
                 const std::vector<size_t>& kept,
                 const std::vector<LayerChange>& unchanged) {
    const std::vector<double> light = SpotLight(film, spot).by_fixture(unchanged);
    for (size_t f = 0; f < light.size(); ++f) {
        if (light[f] > kLeastLight && may_change(film, f, kept)) return true;
    }
    return false;
}

bool is_dark(const FilmRecord& film,
             const LightSpot& spot,
             const std::vector<LayerChange>& unchanged) {
    double sum = 0;
    for (const double l : SpotLight(film, spot).by_fixture(unchanged)) sum += l;
    return !(sum > kLeastLight);
}

}  // namespace

void check_targets(const FilmRecord& film,
                   const std::vector<Target>& targets,
                   const std::vector<size_t>& kept,
                   Problems& problems) {
    const auto unchanged = make_layer_changes(film, film.fixtures);
    for (const Target& target : targets) {
        std::vector<LightSpot> spots = {target.light};
        if (target.against) spots.push_back(*target.against);
        const auto dark = std::find_if(spots.begin(), spots.end(), [&](const LightSpot& spot) {
            return is_dark(film, spot, unchanged);
        });
        if (dark != spots.end()) {
            problems.add({target.text}, "", "no fixture's light reaches " + spot_text(film, *dark));
        } else if (std::none_of(spots.begin(), spots.end(), [&](const LightSpot& spot) {
                       return sends_light(film, spot, kept, unchanged);
                   })) {
            problems.add({target.text}, "", "no fixture that may be dimmed lights it");
        }
    }
}

Balance find_balance(const FilmRecord& film,
                     const std::vector<Target>& targets,
                     const std::vector<size_t>& kept) {
    const auto unchanged = make_layer_changes(film, film.fixtures);
    std::vector<HeldLevel> held = find_held(film, targets, unchanged);
    const Search search(film, targets, held, kept);
    Balance balance{search.fixtures_at(search.run()), {}, std::move(held)};
    const auto changes = make_layer_changes(film, balance.fixtures);
    for (HeldLevel& h : balance.held) h.after = log_of(spots_at(film, h.light), changes);
    for (const Target& target : targets) {
        const Spots spots(film, target);
        balance.results.push_back(
            {target, log_of(spots, unchanged), log_of(spots, changes), error_of(spots, changes)});
    }
    return balance;
}

}  // namespace dapple
