#include "variants/search/search_steps.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace dapple {

namespace {

constexpr double kSpreadShare = 0.6;
constexpr size_t kMostBoxes = 4;
constexpr double kLeastSide = 1e-3;
constexpr int kMostUnusable = 200;  // in a row
constexpr int kMostUnusableAtFirst = 60;

double distance(const std::vector<double>& a, const std::vector<double>& b) {
    double most = 0;
    for (size_t i = 0; i < a.size(); ++i) most = std::max(most, std::abs(a[i] - b[i]));
    return most;
}

}  // namespace

SearchSteps::SearchSteps(size_t dimensions, int tries)
    : sequence_(dimensions),
      dimensions_(dimensions),
      tries_(tries),
      spread_(std::max(1, static_cast<int>(std::lround(kSpreadShare * tries)))) {}

bool SearchSteps::is_done() const {
    const int most = rated_.empty() ? kMostUnusableAtFirst : kMostUnusable;
    return rated() >= tries_ || unusable_in_a_row_ >= most;
}

std::vector<double> SearchSteps::next() const {
    if (is_spreading()) return sequence_.point(spread_points_);
    const Box& box = boxes_[box_];
    const std::vector<double>& middle = rated_[box.middle].u;
    std::vector<double> u = sequence_.point(box.points);
    for (size_t i = 0; i < u.size(); ++i) {
        u[i] = std::clamp(middle[i] + box.side * (u[i] - 0.5), 0.0, 1.0);
    }
    return u;
}

void SearchSteps::tell(std::optional<double> score) {
    const bool was_spreading = is_spreading();
    unusable_in_a_row_ = score ? 0 : unusable_in_a_row_ + 1;
    if (score) rated_.push_back({next(), *score});
    if (was_spreading) {
        ++spread_points_;
        if (!is_spreading()) make_boxes();
        return;
    }
    Box& box = boxes_[box_];
    ++box.points;
    ++box.asked;
    if (score && *score < rated_[box.best].score) box.best = rated_.size() - 1;
    if (box.asked >= 2 * static_cast<int>(dimensions_) + 1) end_round(box);
}

// The best place, then the best ones that are no nearer to those chosen than a side.
void SearchSteps::make_boxes() {
    const double side =
        std::pow(spread_, -1.0 / static_cast<double>(std::max<size_t>(1, dimensions_)));
    std::vector<size_t> order(rated_.size());
    std::iota(order.begin(), order.end(), size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](size_t a, size_t b) {
        return rated_[a].score < rated_[b].score;
    });
    for (const size_t i : order) {
        const bool is_near = std::any_of(boxes_.begin(), boxes_.end(), [&](const Box& box) {
            return distance(rated_[box.middle].u, rated_[i].u) < side;
        });
        if (is_near || boxes_.size() == kMostBoxes) continue;
        boxes_.push_back({i, side, i, 0, 0});
    }
}

void SearchSteps::end_round(Box& box) {
    if (box.best == box.middle) box.side = std::max(kLeastSide, box.side / 2);
    box.middle = box.best;
    box.asked = 0;
    ++rounds_;
    choose_box();
}

// The best box, and after each of its rounds one of the others in turn.
void SearchSteps::choose_box() {
    size_t best = 0;
    for (size_t i = 1; i < boxes_.size(); ++i) {
        if (rated_[boxes_[i].middle].score < rated_[boxes_[best].middle].score) best = i;
    }
    box_ = best;
    if (rounds_ % 2 == 0 || boxes_.size() == 1) return;
    box_ = static_cast<size_t>(rounds_ / 2) % (boxes_.size() - 1);
    if (box_ >= best) ++box_;
}

}  // namespace dapple
