#include "sheets/isolines.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

#include "base/parallel.h"

namespace dapple {

namespace {

constexpr int32_t kNoEdge = -1;

// The lines cross edges between neighbouring centres. An edge is numbered by its first centre,
// twice, plus 1 if it runs down. Each edge that is crossed has at most two neighbours on its line.
class Crossings {
  public:
    Crossings(const ScalarField& field, double level)
        : field_(field), level_(level), next_(2 * field.values.size(), {kNoEdge, kNoEdge}) {
        for (int y = 0; y + 1 < field.height; ++y) {
            for (int x = 0; x + 1 < field.width; ++x) cross_square(x, y);
        }
    }

    std::vector<Isoline> take_lines() {
        std::vector<Isoline> lines;
        for (const bool closed : {false, true}) {  // open lines begin at their ends
            for (size_t edge = 0; edge < next_.size(); ++edge) {
                const auto& next = next_[edge];
                const bool crossed = next[0] != kNoEdge;
                if (!crossed || (!closed && next[1] != kNoEdge)) continue;
                lines.push_back({follow(static_cast<int32_t>(edge)), closed});
            }
        }
        return lines;
    }

  private:
    int32_t across(int x, int y) const { return 2 * (y * field_.width + x); }
    int32_t down(int x, int y) const { return across(x, y) + 1; }
    bool above(int x, int y) const { return static_cast<double>(field_.at(x, y)) > level_; }

    void join(int32_t a, int32_t b) {
        for (const auto& [from, to] : {std::array{a, b}, std::array{b, a}}) {
            auto& next = next_[static_cast<size_t>(from)];
            next[next[0] == kNoEdge ? 0 : 1] = to;
        }
    }

    void cross_square(int x, int y) {
        const int32_t top = across(x, y);
        const int32_t bottom = across(x, y + 1);
        const int32_t left = down(x, y);
        const int32_t right = down(x + 1, y);
        const std::array<bool, 4> high = {
            above(x, y), above(x + 1, y), above(x + 1, y + 1), above(x, y + 1)};
        const std::array<int32_t, 4> sides = {top, right, bottom, left};
        std::array<int32_t, 4> crossed{};
        size_t count = 0;
        for (size_t i = 0; i < 4; ++i) {
            if (high[i] != high[(i + 1) % 4]) crossed[count++] = sides[i];
        }
        if (count == 2) join(crossed[0], crossed[1]);
        if (count < 4) return;
        const double mean =
            0.25 * static_cast<double>(field_.at(x, y) + field_.at(x + 1, y) +
                                       field_.at(x + 1, y + 1) + field_.at(x, y + 1));
        const bool first_is_alone = high[0] != (mean > level_);
        join(top, first_is_alone ? left : right);
        join(bottom, first_is_alone ? right : left);
    }

    DVec2 point_on(int32_t edge) const {
        const int x = edge / 2 % field_.width;
        const int y = edge / 2 / field_.width;
        const DVec2 step = edge % 2 == 0 ? DVec2(1, 0) : DVec2(0, 1);
        const auto a = static_cast<double>(field_.at(x, y));
        const auto b = static_cast<double>(
            field_.at(x + static_cast<int>(step.x), y + static_cast<int>(step.y)));
        return DVec2(x + 0.5, y + 0.5) + step * ((level_ - a) / (b - a));
    }

    // Takes the line from an edge on out of the table.
    std::vector<DVec2> follow(int32_t edge) {
        std::vector<DVec2> points;
        while (edge != kNoEdge) {
            points.push_back(point_on(edge));
            auto& here = next_[static_cast<size_t>(edge)];
            const int32_t to = here[0] != kNoEdge ? here[0] : here[1];
            here = {kNoEdge, kNoEdge};
            if (to != kNoEdge) forget(to, edge);
            edge = to;
        }
        return points;
    }

    void forget(int32_t edge, int32_t neighbour) {
        auto& next = next_[static_cast<size_t>(edge)];
        if (next[0] == neighbour) next[0] = next[1];
        next[1] = kNoEdge;
    }

    const ScalarField& field_;
    double level_;
    std::vector<std::array<int32_t, 2>> next_;
};

}  // namespace

double Isoline::length() const {
    double sum = 0;
    for (size_t i = 1; i < points.size(); ++i) sum += glm::distance(points[i - 1], points[i]);
    return sum;
}

std::vector<Isoline> find_isolines(const ScalarField& field, double level) {
    if (field.width < 2 || field.height < 2) return {};
    return Crossings(field, level).take_lines();
}

ScalarField blur(const ScalarField& field, double sigma) {
    if (!(sigma > 0)) return field;
    const int reach = static_cast<int>(std::ceil(3 * sigma));
    std::vector<float> weights;
    float sum = 0;
    for (int i = -reach; i <= reach; ++i) {
        weights.push_back(static_cast<float>(std::exp(-0.5 * i * i / (sigma * sigma))));
        sum += weights.back();
    }
    const auto pass = [&](const ScalarField& from, int dx, int dy) {
        ScalarField to = from;
        parallel_blocks(from.height, 16, [&](int64_t first, int64_t last) {
            for (int y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
                for (int x = 0; x < from.width; ++x) {
                    float value = 0;
                    for (int i = -reach; i <= reach; ++i) {
                        const int u = std::clamp(x + i * dx, 0, from.width - 1);
                        const int v = std::clamp(y + i * dy, 0, from.height - 1);
                        value += weights[static_cast<size_t>(i + reach)] * from.at(u, v);
                    }
                    to.values[static_cast<size_t>(y * from.width + x)] = value / sum;
                }
            }
        });
        return to;
    };
    return pass(pass(field, 1, 0), 0, 1);
}

}  // namespace dapple
