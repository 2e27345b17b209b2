#include "film/rim_pixels.h"

#include <algorithm>

#include "base/parallel.h"

namespace dapple {

namespace {

constexpr int kCoarseRowsPerBlock = 4;

// Calls use(seen, is_middle) for each of the fine pixels of a coarse one.
template <class Use>
void for_each_fine(const SeenPoints& fine, int step, int x, int y, const Use& use) {
    for (int v = 0; v < step; ++v) {
        for (int u = 0; u < step; ++u) {
            const int pixel = (y * step + v) * fine.width + x * step + u;
            use(fine.pixels[static_cast<size_t>(pixel)], u == step / 2 && v == step / 2);
        }
    }
}

SeenPoint coarse_point(const SeenPoints& fine, int step, int x, int y) {
    const int u = x * step + step / 2;
    const int v = y * step + step / 2;
    SeenPoint seen = fine.pixels[static_cast<size_t>(v * fine.width + u)];
    seen.footprint_m *= static_cast<float>(step);
    Rgb sum(0);
    float count = 0;
    for_each_fine(fine, step, x, y, [&](const SeenPoint& other, bool) {
        if (!(likeness(seen, other) > 0)) return;
        sum += other.albedo;
        count += 1;
    });
    if (count > 0) seen.albedo = sum / count;
    return seen;
}

SharedPixel shares_of(const SeenPoints& fine, int step, const SeenPoints& coarse, int x, int y) {
    SharedPixel shared;
    shared.pixel = y * coarse.width + x;
    const float share = 1.0F / static_cast<float>(step * step);
    for_each_fine(fine, step, x, y, [&](const SeenPoint& seen, bool is_middle) {
        shared.shares[is_middle ? 4 : best_match(coarse, x, y, seen)] += share;
    });
    return shared;
}

}  // namespace

size_t best_match(const SeenPoints& points, int x, int y, const SeenPoint& seen) {
    size_t best = 4;
    float most = 0;
    for (const size_t k : {4, 1, 3, 5, 7, 0, 2, 6, 8}) {
        const int u = x + static_cast<int>(k % 3) - 1;
        const int v = y + static_cast<int>(k / 3) - 1;
        if (u < 0 || v < 0 || u >= points.width || v >= points.height) continue;
        const float like = likeness(points.pixels[static_cast<size_t>(v * points.width + u)], seen);
        if (like > most) {
            most = like;
            best = k;
        }
    }
    return best;
}

bool is_at_rim(const SeenPoints& points, int x, int y) {
    const SeenPoint& own = points.pixels[static_cast<size_t>(y * points.width + x)];
    for (int v = std::max(0, y - 1); v <= std::min(points.height - 1, y + 1); ++v) {
        for (int u = std::max(0, x - 1); u <= std::min(points.width - 1, x + 1); ++u) {
            const SeenPoint& other = points.pixels[static_cast<size_t>(v * points.width + u)];
            if (!(likeness(own, other) > 0) && (own.surface >= 0 || other.surface >= 0))
                return true;
        }
    }
    return false;
}

SeenPoints make_coarser(const SeenPoints& fine, int step) {
    SeenPoints coarse{fine.width / step, fine.height / step, {}, {}};
    coarse.pixels.resize(static_cast<size_t>(coarse.width) * static_cast<size_t>(coarse.height));
    parallel_blocks(coarse.height, kCoarseRowsPerBlock, [&](int64_t first, int64_t last) {
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < coarse.width; ++x) {
                coarse.pixels[static_cast<size_t>(y * coarse.width + x)] =
                    coarse_point(fine, step, x, y);
            }
        }
    });
    std::vector<std::vector<SharedPixel>> rows(static_cast<size_t>(coarse.height));
    parallel_blocks(coarse.height, kCoarseRowsPerBlock, [&](int64_t first, int64_t last) {
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < coarse.width; ++x) {
                if (!is_at_rim(coarse, x, y)) continue;
                rows[static_cast<size_t>(y)].push_back(shares_of(fine, step, coarse, x, y));
            }
        }
    });
    for (const std::vector<SharedPixel>& row : rows) {
        coarse.shared.insert(coarse.shared.end(), row.begin(), row.end());
    }
    return coarse;
}

}  // namespace dapple
