#include "variants/search/choose_places.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace dapple {

namespace {

constexpr double kSamePlace = 0.01;  // of the space
constexpr double kGoodShare = 0.25;

bool is_same_place(const RatedPlace& a, const RatedPlace& b) {
    for (size_t i = 0; i < a.u.size(); ++i) {
        if (std::abs(a.u[i] - b.u[i]) >= kSamePlace) return false;
    }
    return true;
}

double least_unlikeness(const std::vector<RatedPlace>& places,
                        const std::vector<size_t>& chosen,
                        size_t candidate) {
    double least = std::numeric_limits<double>::infinity();
    for (const size_t i : chosen) {
        least = std::min(least, unlikeness(places[i], places[candidate]));
    }
    return least;
}

}  // namespace

double unlikeness(const RatedPlace& a, const RatedPlace& b) {
    const size_t count = std::min(a.look.size(), b.look.size());
    double squares = 0;
    for (size_t i = 0; i < count; ++i) {
        const double d = static_cast<double>(a.look[i]) - static_cast<double>(b.look[i]);
        squares += d * d;
    }
    return count > 0 ? std::sqrt(squares / static_cast<double>(count)) : 0;
}

std::vector<size_t> choose_places(const std::vector<RatedPlace>& places,
                                  size_t best,
                                  size_t unlike) {
    std::vector<size_t> order(places.size());
    std::iota(order.begin(), order.end(), size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](size_t a, size_t b) {
        return places[a].score < places[b].score;
    });
    std::vector<size_t> chosen;
    for (const size_t i : order) {
        if (chosen.size() == best) break;
        const bool is_new = std::none_of(chosen.begin(), chosen.end(), [&](size_t c) {
            return is_same_place(places[c], places[i]);
        });
        if (is_new) chosen.push_back(i);
    }
    const auto good =
        static_cast<size_t>(std::ceil(kGoodShare * static_cast<double>(order.size())));
    order.resize(std::min(order.size(), std::max(good, best + unlike)));
    while (chosen.size() < best + unlike) {
        double most = 0;
        size_t found = places.size();
        for (const size_t i : order) {
            const double u = least_unlikeness(places, chosen, i);
            if (u <= most || std::find(chosen.begin(), chosen.end(), i) != chosen.end()) continue;
            most = u;
            found = i;
        }
        if (found == places.size()) break;
        chosen.push_back(found);
    }
    return chosen;
}

}  // namespace dapple
