#include "render/splat_layout.h"

#include <algorithm>
#include <cmath>

namespace dapple {

void SplatLayout::begin(std::span<const SplatPart> parts, const Target& target) {
    first_group_ = target.first_group;
    groups_ = target.groups;
    half_ = target.half;
    parts_ = parts.size();
    for (size_t k = 0; k < parts_; ++k) {
        middles_[k] = parts[k].raster;
        luminances_[k] = parts[k].luminance;
        weight_sums_[k] = RunWeights{};
    }
    run_count_ = 0;
}

// The box around the ellipses of all parts, clipped to the frame.
SplatLayout::Box SplatLayout::box_around(const SplatEllipse& ellipse, const Film& film) const {
    Vec2 low = middles_[0];
    Vec2 high = low;
    for (size_t k = 1; k < parts_; ++k) {
        low = glm::min(low, middles_[k]);
        high = glm::max(high, middles_[k]);
    }
    low -= ellipse.reach + 0.5F;
    high += ellipse.reach - 0.5F;
    return {std::max(0, static_cast<int>(std::ceil(low.x))),
            std::max(0, static_cast<int>(std::ceil(low.y))),
            std::min(film.width() - 1, static_cast<int>(std::floor(high.x))),
            std::min(film.height() - 1, static_cast<int>(std::floor(high.y)))};
}

// Adds the run that begins at (left, y), unless no part's ellipse covers any of it. `all_seen`: all
// pixels of the tile see the surface; else each pixel is checked.
void SplatLayout::add_run(int left, int y, bool all_seen, const Job& job) {
    const SplatEllipse& ellipse = job.ellipse;
    RunWeights* const weights = &weights_[run_count_ * parts_];
    RunWeights part_sum{};
    for (size_t k = 0; k < parts_; ++k) {
        const float dx = static_cast<float>(left) + 0.5F - middles_[k].x;
        const float dy = static_cast<float>(y) + 0.5F - middles_[k].y;
        weights[k] = ellipse.weights(dx, dy);
        part_sum.v += weights[k].v;
    }
    if (part_sum.is_zero()) return;
    const PixelRun run{left, y};
    job.film.fetch(run, first_group_, groups_);
    const auto leave_out = [&](int i) {
        for (size_t k = 0; k < parts_; ++k) weights[k].v[i] = 0;
    };
    const int count = std::min(kTile, job.film.width() - left);
    const auto is_seen = [&](int i) {
        return job.seen.pixel(left + i, y).is_surface_at(job.target.at, ellipse.longest);
    };
    for (int i = 0; i < count && !all_seen; ++i) {
        if (part_sum.v[i] > 0 && !is_seen(i)) leave_out(i);
    }
    for (int i = count; i < kTile; ++i) leave_out(i);  // beyond the frame
    for (size_t k = 0; k < parts_; ++k) weight_sums_[k].v += weights[k].v;
    runs_[run_count_++] = run;
}

// Adds the runs of the tile that contains column x, in the rows from top to bottom.
void SplatLayout::lay_out_tile(int x, int top, int bottom, Job& job) {
    const int left = x / kTile * kTile;
    const uint32_t plane = job.seen.plane_of_tile(left, top);
    const bool is_flat = plane != SeenSurfaces::kNotFlat;
    if (is_flat && plane != job.plane) {
        job.plane = plane;
        job.plane_is_seen = job.seen.plane(plane).is_surface_at(job.target.at, job.ellipse.longest);
    }
    if (is_flat && !job.plane_is_seen) return;
    for (int y = top; y <= bottom; ++y) add_run(left, y, is_flat, job);
}

// Divides the parts' luminances by the sums of their weights. False where a sum is 0.
bool SplatLayout::scale_luminances() {
    for (size_t k = 0; k < parts_; ++k) {
        const float sum = weight_sums_[k].sum();
        if (!(sum > 0)) return false;
        luminances_[k] *= 1.0F / sum;
    }
    return true;
}

bool SplatLayout::lay_out(std::span<const SplatPart> parts,
                          const SplatEllipse& ellipse,
                          const Target& target,
                          const SeenSurfaces& seen,
                          const Film& film) {
    begin(parts, target);
    const Box box = box_around(ellipse, film);
    const int rows = std::max(0, box.bottom - box.top + 1);
    const int tiles = std::max(0, box.right / kTile - box.left / kTile + 1);
    if (static_cast<size_t>(rows * tiles) * parts_ > kMostWeights) return false;
    Job job{.ellipse = ellipse, .target = target, .seen = seen, .film = film};
    // Tiles of one band of the film follow each other.
    for (int y = box.top; y <= box.bottom; y = (y / kTile + 1) * kTile) {
        const int bottom = std::min(box.bottom, (y / kTile + 1) * kTile - 1);
        for (int x = box.left; x <= box.right; x = (x / kTile + 1) * kTile) {
            lay_out_tile(x, y, bottom, job);
        }
    }
    return scale_luminances();
}

void SplatLayout::add_to(Film& film) const {
    film.add_spread({.runs = {runs_.data(), run_count_},
                     .weights = {weights_.data(), run_count_ * parts_},
                     .first_group = first_group_,
                     .groups = groups_,
                     .throughputs = {luminances_.data(), parts_},
                     .half = half_});
}

}  // namespace dapple
