#include "render/prepare/find_seen_points.h"

#include <functional>

#include "base/fill_in_steps.h"
#include "base/parallel.h"
#include "film/rim_pixels.h"
#include "render/prepare/find_blur.h"
#include "render/prepare/sight.h"

namespace dapple {

namespace {

constexpr int kGrid = 3;  // places across a pixel at the rim of a surface
constexpr int kSeenRowsPerBlock = 4;

int blocks_of(const SeenPoints& points) {
    return (points.height + kSeenRowsPerBlock - 1) / kSeenRowsPerBlock;
}

SharedPixel share_out(const Sight& sight, const SeenPoints& points, int x, int y) {
    SharedPixel shared;
    shared.pixel = y * points.width + x;
    constexpr float kShare = 1.0F / (kGrid * kGrid);
    for (int place = 0; place < kGrid * kGrid; ++place) {
        const Vec2 at((static_cast<float>(place % kGrid) + 0.5F) / kGrid,
                      (static_cast<float>(place / kGrid) + 0.5F) / kGrid);
        size_t k = 4;
        if (place != kGrid * kGrid / 2) {
            k = best_match(points, x, y, sight.look(Vec2(x, y) + at));
        }
        shared.shares[k] += kShare;
    }
    return shared;
}

// Calls look_on(x, y) for each pixel.
void for_each_pixel(const SeenPoints& points,
                    WorkWatch& watch,
                    const std::function<void(int, int)>& look_on) {
    parallel_blocks(points.height, kSeenRowsPerBlock, [&](int64_t first, int64_t last) {
        watch.next_block_or_throw();
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < points.width; ++x) look_on(x, y);
        }
    });
}

void look_at_all(const Sight& sight, SeenPoints& points, WorkWatch& watch) {
    for_each_pixel(points, watch, [&](int x, int y) {
        points.pixels[static_cast<size_t>(y * points.width + x)] =
            sight.look(Vec2(x, y) + Vec2(0.5F));
    });
}

// Only the pixels that may see something else than before.
void look_anew(const Sight& sight,
               const std::vector<Bounds>& changed,
               SeenPoints& points,
               WorkWatch& watch) {
    for_each_pixel(points, watch, [&](int x, int y) {
        SeenPoint& seen = points.pixels[static_cast<size_t>(y * points.width + x)];
        const Vec2 raster = Vec2(x, y) + Vec2(0.5F);
        if (!sight.is_clear_of(changed, raster, seen)) seen = sight.look(raster);
    });
}

void share_out_rims(const Sight& sight, SeenPoints& points, WorkWatch& watch) {
    std::vector<std::vector<SharedPixel>> rows(static_cast<size_t>(points.height));
    parallel_blocks(points.height, kSeenRowsPerBlock, [&](int64_t first, int64_t last) {
        watch.next_block_or_throw();
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < points.width; ++x) {
                const auto i = static_cast<size_t>(y * points.width + x);
                if (is_soft_lamp(points.pixels[i]) || !is_at_rim(points, x, y)) continue;
                rows[static_cast<size_t>(y)].push_back(share_out(sight, points, x, y));
            }
        }
    });
    for (const std::vector<SharedPixel>& row : rows) {
        points.shared.insert(points.shared.end(), row.begin(), row.end());
    }
}

}  // namespace

SeenPoints find_seen_points(const Setup& setup, const FirstHits& first_hits, WorkWatch& watch) {
    SeenPoints points{first_hits.width, first_hits.height, {}, {}};
    grow_in_steps(points.pixels, first_hits.surface.size());
    const Sight sight(setup, setup.lens);
    const bool is_blurred = has_blur(setup.lens, first_hits);
    watch.start_step(WorkStep::kSeenPoints, (is_blurred ? 3 : 2) * blocks_of(points));
    look_at_all(sight, points, watch);
    for (size_t i = 0; i < first_hits.lamp.size(); ++i) {
        points.pixels[i].shows_lamp = first_hits.lamp[i] >= 0;
    }
    if (is_blurred) {
        find_blur(sight, setup.lens, setup.scene.fixtures, first_hits, points, watch);
    }
    share_out_rims(sight, points, watch);
    return points;
}

FinePoints find_fine_points(const Setup& setup, int step, const KeptSight& kept, WorkWatch& watch) {
    Camera camera = setup.scene.camera;
    camera.width *= step;
    camera.height *= step;
    const Lens lens(camera);
    FinePoints fine{step, {camera.width, camera.height, {}, {}}, {}};
    watch.start_step(WorkStep::kSeenPoints, blocks_of(fine.seen));
    const FinePoints* const before = kept.points.get();
    if (before && before->step == step && before->seen.width == camera.width &&
        before->seen.height == camera.height) {
        fine = *before;
        look_anew(Sight(setup, lens), kept.changed, fine.seen, watch);
    } else {
        grow_in_steps(fine.seen.pixels,
                      static_cast<size_t>(camera.width) * static_cast<size_t>(camera.height));
        look_at_all(Sight(setup, lens), fine.seen, watch);
    }
    fine.blurred.clear();
    for (const SeenPoint& seen : fine.seen.pixels) {
        const float depth = seen.footprint_m / lens.pixel_width_at(1);
        fine.blurred.push_back(depth > 0 && lens.blur_px(depth) > static_cast<float>(step) ? 1 : 0);
    }
    return fine;
}

}  // namespace dapple
