#include "film/rim_pixels.h"

#include <algorithm>
#include <array>

#include "base/parallel.h"

namespace dapple {

namespace {

constexpr int kCoarseRowsPerBlock = 4;
constexpr std::array<size_t, 9> kNearestFirst = {4, 1, 3, 5, 7, 0, 2, 6, 8};
constexpr size_t kOwn = 4;  // the middle one of 3 × 3 pixels

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

// What the middle of a coarse pixel sees.
SeenPoint middle_point(const SeenPoints& fine, int step, int x, int y) {
    const int pixel = (y * step + step / 2) * fine.width + x * step + step / 2;
    SeenPoint seen = fine.pixels[static_cast<size_t>(pixel)];
    seen.footprint_m *= static_cast<float>(step);
    return seen;
}

// As best_match(), also for lamps' faces and for nothing.
size_t best_middle(const SeenPoints& coarse, int x, int y, const SeenPoint& seen) {
    if (seen.surface >= 0) return best_match(coarse, x, y, seen);
    for (const size_t k : kNearestFirst) {
        const int u = x + static_cast<int>(k % 3) - 1;
        const int v = y + static_cast<int>(k / 3) - 1;
        if (u < 0 || v < 0 || u >= coarse.width || v >= coarse.height) continue;
        const SeenPoint& other = coarse.pixels[static_cast<size_t>(v * coarse.width + u)];
        if (other.surface < 0 && (other.footprint_m > 0) == (seen.footprint_m > 0)) return k;
    }
    return kOwn;
}

struct PixelParts {
    std::array<float, 9> shares{};  // of the surfaces in the middles of the 3 × 3 pixels
    Rgb albedo{0};                  // mean over what counts as this pixel's own surface
    bool is_at_rim = false;
};

PixelParts parts_of(const SeenPoints& fine, int step, const SeenPoints& coarse, int x, int y) {
    PixelParts parts;
    parts.is_at_rim = is_at_rim(coarse, x, y);
    const float share = 1.0F / static_cast<float>(step * step);
    for_each_fine(fine, step, x, y, [&](const SeenPoint& seen, bool is_middle) {
        const bool is_own = is_middle || !parts.is_at_rim;
        const size_t k = is_own ? kOwn : best_middle(coarse, x, y, seen);
        parts.shares[k] += share;
        if (k == kOwn) parts.albedo += share * seen.albedo;
    });
    parts.albedo /= parts.shares[kOwn];
    return parts;
}

}  // namespace

size_t best_match(const SeenPoints& points, int x, int y, const SeenPoint& seen) {
    size_t best = 4;
    float most = 0;
    for (const size_t k : kNearestFirst) {
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
            if (!(likeness(own, other, 1) > 0) && (own.surface >= 0 || other.surface >= 0))
                return true;
        }
    }
    return false;
}

SeenPoints make_coarser(const SeenPoints& fine, int step) {
    SeenPoints coarse{fine.width / step, fine.height / step, {}, {}};
    const auto width = static_cast<size_t>(coarse.width);
    for (int y = 0; y < coarse.height; ++y) {
        for (int x = 0; x < coarse.width; ++x) {
            coarse.pixels.push_back(middle_point(fine, step, x, y));
        }
    }
    std::vector<PixelParts> parts(coarse.pixels.size());
    parallel_blocks(coarse.height, kCoarseRowsPerBlock, [&](int64_t first, int64_t last) {
        for (auto i = static_cast<size_t>(first) * width; i < static_cast<size_t>(last) * width;
             ++i) {
            const auto x = static_cast<int>(i % width);
            parts[i] = parts_of(fine, step, coarse, x, static_cast<int>(i / width));
        }
    });
    for (size_t i = 0; i < parts.size(); ++i) {
        coarse.pixels[i].albedo = parts[i].albedo;
        if (parts[i].is_at_rim) coarse.shared.push_back({static_cast<int32_t>(i), parts[i].shares});
    }
    return coarse;
}

}  // namespace dapple
