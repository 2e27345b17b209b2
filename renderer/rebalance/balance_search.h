// The least value of what a balance minimises (balance.h, E174), and which dimmers stay as they
// are because they hardly matter.
#pragma once

#include <Eigen/Dense>
#include <algorithm>

#include "rebalance/balance.h"
#include "rebalance/spot_light.h"

namespace dapple {

// The light of a target: one side, or both sides of a ratio.
struct Spots {
    SpotLight light;
    std::optional<SpotLight> against;

    Spots(const FilmRecord& film, const Target& target) : light(film, target.light) {
        if (target.against) against.emplace(film, *target.against);
    }
};

// One light as a target without a wanted value.
Spots spots_at(const FilmRecord& film, const LightSpot& light);

// Whether the balance may change the fixture's dimmer.
bool may_change(const FilmRecord& film, size_t fixture, const std::vector<size_t>& kept);

class BalanceSearch {
  public:
    // `most`: the largest dimmer; above 1 to learn how much light is wanting.
    BalanceSearch(const FilmRecord& film,
                  const std::vector<Target>& targets,
                  const std::vector<HeldLevel>& held,
                  const std::vector<size_t>& kept,
                  double most);

    // The film's fixtures with the dimmers that are found.
    std::vector<Fixture> find() const;

  private:
    using Vector = Eigen::VectorXd;
    using Matrix = Eigen::MatrixXd;

    // What is minimised for one target or one held level: weight · (light - against - wanted)².
    struct Goal {
        Spots spots;
        double wanted = 0;
        double weight = 1;
    };

    // The residuals, their derivatives by the free logarithms, and what is minimised.
    struct Point {
        Vector residuals;
        Matrix slopes;
        double cost = 0;
    };

    // The logarithms of the dimmers, and how far the targets and the held levels are missed: roots
    // of sums of squares, stops.
    struct Found {
        Vector x;
        double missed = 0;
        double moved = 0;

        double lost_against(const Found& best) const {
            return std::max(missed - best.missed, moved - best.moved);
        }
    };

    Found minimise(const std::vector<bool>& stays) const;
    Vector leave_idle(const Found& best) const;
    bool may_be_idle(const Found& best, Eigen::Index i) const;
    std::vector<Fixture> fixtures_at(const Vector& x) const;
    Point look(const Vector& x) const;
    double missed_at(const Point& point, size_t first, size_t last) const;
    void add_shares(const std::vector<double>& shares,
                    double factor,
                    Matrix& slopes,
                    int row) const;
    Vector step_from(const Vector& x,
                     const Point& here,
                     double damping,
                     const std::vector<bool>& stays) const;

    const FilmRecord& film_;
    size_t targets_;  // the first of the goals; the others are held levels
    std::vector<Goal> goals_;
    std::vector<size_t> free_;  // fixtures that may change
    Vector start_;
    double high_;  // log2 of the largest dimmer
};

}  // namespace dapple
