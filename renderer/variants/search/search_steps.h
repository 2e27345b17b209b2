// Where a search tries next.
//
// The first three fifths of the tries are spread over the whole space (E185). The rest goes to
// boxes around the best place and the best ones that are far from it: (E186)
//   A box begins with half the side that one spread place has for itself, n^(-1/d) of the space. A
//   round of 2d + 1 places is spread over it. If one of them is better than its middle, the box
//   moves there; if none is, its sides shrink to a half. Every second round belongs to the best
//   box.
// Shrinking boxes around several good places: Eriksson et al. 2019, "Scalable global optimization
// via local Bayesian optimization", without its model. That a step is halved when nothing near is
// better: Hooke and Jeeves 1961. The numbers are our own.
//
// The next place depends only on the scores so far, so a search that is begun again with the same
// scores goes on as if it had not been stopped.
#pragma once

#include <optional>
#include <vector>

#include "math/sequences.h"

namespace dapple {

class SearchSteps {
  public:
    // `tries`: places that are to be rated. Those that cannot be used are not counted.
    SearchSteps(size_t dimensions, int tries);

    // Whether all tries are made, or so many places in a row could not be used that there is
    // little hope.
    bool is_done() const;
    std::vector<double> next() const;
    // The score of next(), the less the better; nothing: the place cannot be used.
    void tell(std::optional<double> score);

    int rated() const { return static_cast<int>(rated_.size()); }

  private:
    struct Rated {
        std::vector<double> u;
        double score = 0;
    };
    struct Box {
        size_t middle = 0;  // of rated_
        double side = 0;
        size_t best = 0;  // of this round
        int asked = 0;    // in this round
        uint64_t points = 0;
    };

    bool is_spreading() const { return rated() < spread_; }
    void make_boxes();
    void choose_box();
    void end_round(Box& box);

    AdditiveSequence sequence_;
    size_t dimensions_;
    int tries_;
    int spread_;
    int unusable_in_a_row_ = 0;
    uint64_t spread_points_ = 0;
    std::vector<Rated> rated_;
    std::vector<Box> boxes_;
    size_t box_ = 0;
    int rounds_ = 0;
};

}  // namespace dapple
