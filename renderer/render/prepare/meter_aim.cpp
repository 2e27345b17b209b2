#include "render/prepare/meter_aim.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "transport/light_walk.h"

namespace dapple {

namespace {

constexpr double kAimedInPilot = 0.9;   // share of a pilot's walks that is aimed at glass
constexpr double kExploring = 0.4;      // share of those that is spread over all glass
constexpr double kRemembered = 0.5;     // share of the pilots before in what was learnt
constexpr double kToNeighbour = 0.012;  // of a start's term, to each of 16 places around it
constexpr double kEven = 0.3;           // of what a pilot learns, spread evenly near the starts
constexpr int kStartsToSplit = 12;      // a cell with more starts is split
constexpr float kLeastCell = 1.0F / 64;

void normalize(std::vector<double>& weights) {
    const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
    for (double& w : weights) w /= sum;
}

// (1 - share) a + share b; both have the sum 1.
std::vector<double> mixed(const std::vector<double>& a,
                          const std::vector<double>& b,
                          double share) {
    std::vector<double> out(a.size());
    for (size_t i = 0; i < a.size(); ++i) out[i] = (1 - share) * a[i] + share * b[i];
    return out;
}

}  // namespace

MeterAim::MeterAim(int fixture, GlassWindows glass)
    : fixture_(fixture),
      glass_(std::move(glass)),
      cells_(glass_.windows.size()),
      over_glass_(glass_.cells) {
    normalize(over_glass_);
}

Aim MeterAim::pilot_aim() const {
    const std::vector<double> shares =
        at_meters_.empty() ? over_glass_ : mixed(over_glass_, at_meters_, 1 - kExploring);
    return {glass_.windows, cells_, shares, static_cast<float>(kAimedInPilot)};
}

Aim MeterAim::added_to(const Aim& own, double share_at_meters) const {
    const double over_glass = (1 - share_at_meters) * static_cast<double>(own.share());
    const double share = over_glass + share_at_meters;
    return {glass_.windows,
            cells_,
            mixed(over_glass_, at_meters_, share_at_meters / share),
            static_cast<float>(share)};
}

std::vector<MeterAim::Start> MeterAim::find_starts(const Stage& stage,
                                                   const std::vector<FallenWalk>& fallen,
                                                   const std::vector<double>& readings) const {
    const auto f = static_cast<size_t>(fixture_);
    const SobolOwen4d numbers = light_walk_starts(stage, fixture_);
    std::vector<Start> starts;
    for (const FallenWalk& walk : fallen) {
        const auto u = numbers.point(static_cast<uint32_t>(walk.index));
        const LampLight light = stage.emitters[f].sample_emission(u[0], u[1], u[2], u[3]);
        const double relative = walk.lux / readings[static_cast<size_t>(walk.meter)];
        for (int w = 0; w < static_cast<int>(glass_.windows.size()); ++w) {
            const AimWindow::Crossing crossing =
                glass_.windows[static_cast<size_t>(w)].crossed_by(light.position, light.direction);
            if (crossing.cell < 0) continue;
            const double per_area = stage.light_walks(f) * light.pdf_direction *
                                    crossing.cos_window / square(crossing.distance);
            starts.push_back(
                {cells_.find(w, crossing.at), crossing.at, relative * relative * per_area});
            break;
        }
    }
    return starts;
}

// Splits one cell. Its shares go to its children.
void MeterAim::split(int cell) {
    cells_.split(cell);
    for (std::vector<double>* const shares : {&over_glass_, &at_meters_}) {
        if (shares->empty()) continue;
        double& parent = shares->at(static_cast<size_t>(cell));
        const double each = 0.25 * std::exchange(parent, 0.0);
        shares->insert(shares->end(), 4, each);
    }
}

void MeterAim::split_cells(std::vector<Start>& starts) {
    for (bool any_split = true; any_split;) {
        std::vector<int> count(static_cast<size_t>(cells_.size()), 0);
        for (const Start& s : starts) ++count[static_cast<size_t>(s.cell)];
        any_split = false;
        for (int i = 0; i < static_cast<int>(count.size()); ++i) {
            if (count[static_cast<size_t>(i)] <= kStartsToSplit || cells_[i].size <= kLeastCell) {
                continue;
            }
            split(i);
            any_split = true;
        }
        for (Start& s : starts) {
            if (cells_[s.cell].first_child >= 0) s.cell = cells_.child_at(s.cell, s.at);
        }
    }
}

// The sum of E72 of each cell. Few pilot walks start from a cell, so a part of each term goes to
// places around it, at one and at three times the cell's size.
std::vector<double> MeterAim::sum_squares(const std::vector<Start>& starts) const {
    std::vector<double> sums(static_cast<size_t>(cells_.size()), 0.0);
    for (const Start& s : starts) {
        sums[static_cast<size_t>(s.cell)] += (1 - 16 * kToNeighbour) * s.square;
        const AimCells::Cell cell = cells_[s.cell];
        for (int i = 0; i < 18; ++i) {
            const Vec2 way(i % 3 - 1, i / 3 % 3 - 1);
            const float distance = (i < 9 ? 1.0F : 3.0F) * cell.size;
            if (way.x == 0 && way.y == 0) continue;
            const int there = cells_.find(cell.window, s.at + distance * way);
            if (there >= 0) sums[static_cast<size_t>(there)] += kToNeighbour * s.square;
        }
    }
    return sums;
}

// Sets the need, too.
std::vector<double> MeterAim::find_shares(const std::vector<Start>& starts) {
    std::vector<double> shares = sum_squares(starts);
    for (size_t i = 0; i < shares.size(); ++i) {
        const AimCells::Cell& cell = cells_[static_cast<int>(i)];
        const AimWindow& window = glass_.windows[static_cast<size_t>(cell.window)];
        shares[i] = std::sqrt(shares[i] * static_cast<double>(window.cell_area())) *
                    static_cast<double>(cell.size);
    }
    need_ = std::accumulate(shares.begin(), shares.end(), 0.0);
    return shares;
}

// Shares of the windows' own cells with a start, and of the cells around them: even over their
// area. Pilots miss narrow places there, which would otherwise get few walks of great weight.
std::vector<double> MeterAim::even_shares(const std::vector<Start>& starts) const {
    std::vector<double> near(glass_.windows.size() * AimWindow::kCells, 0.0);
    const auto root_of = [&](int i) {
        const AimCells::Cell& cell = cells_[i];
        const int row = cell.window * AimWindow::kSide + static_cast<int>(cell.low.y);
        return static_cast<size_t>(row * AimWindow::kSide + static_cast<int>(cell.low.x));
    };
    for (const Start& s : starts) near[root_of(s.cell)] = 1;
    near = blur_cells(near);
    std::vector<double> shares(static_cast<size_t>(cells_.size()), 0.0);
    for (int i = 0; i < cells_.size(); ++i) {
        const bool counts = cells_[i].first_child < 0 && near[root_of(i)] > 0;
        const auto window = static_cast<size_t>(cells_[i].window);
        const float area = square(cells_[i].size) * glass_.windows[window].cell_area();
        if (counts) shares[static_cast<size_t>(i)] = static_cast<double>(area);
    }
    normalize(shares);
    return shares;
}

void MeterAim::learn(const Stage& stage,
                     const std::vector<FallenWalk>& fallen,
                     const std::vector<double>& readings) {
    std::vector<Start> starts = find_starts(stage, fallen, readings);
    split_cells(starts);
    std::vector<double> shares = find_shares(starts);
    if (!(need_ > 0)) return;
    normalize(shares);
    shares = mixed(shares, even_shares(starts), kEven);
    at_meters_ = at_meters_.empty() ? std::move(shares) : mixed(shares, at_meters_, kRemembered);
}

}  // namespace dapple
