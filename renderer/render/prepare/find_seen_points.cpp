#include "render/prepare/find_seen_points.h"

#include "base/parallel.h"
#include "render/prepare/find_first_hits.h"
#include "transport/walk.h"

namespace dapple {

namespace {

constexpr int kGrid = 3;  // places across a pixel at the rim of a surface
constexpr int kSeenRowsPerBlock = 4;

// The colour by which the clean frame divides what is seen at a surface. Haze dims the surface and
// adds light of its own, which knows nothing of the surface's colour.
Rgb seen_colour(const Setup& setup, const SurfacePoint& at) {
    const Rgb colour = surface_colour(setup.scene, at);
    if (!setup.haze) return colour;
    const Vec3 way = at.position - setup.lens.position();
    const float length = glm::length(way);
    const float passes = setup.haze->transmittance(setup.lens.position(), way / length, length);
    return passes * colour + (1.0F - passes);
}

// The first surface at a raster position.
SeenPoint look_at(const Setup& setup, const Vec2& raster) {
    SeenPoint seen;
    const Ray ray = setup.lens.sample_ray(raster, 0.5F, 0.5F).ray;
    Hit hit;
    if (!setup.world.closest(ray, hit)) return seen;
    const SurfacePoint at = setup.world.surface_at(ray, hit);
    seen.position = at.position;
    seen.normal = glm::dot(at.shading, ray.direction) < 0.0F ? at.shading : -at.shading;
    seen.footprint_m = setup.lens.pixel_width_at(
        glm::dot(at.position - setup.lens.position(), setup.lens.frame().n));
    seen.surface = at.material;
    if (at.material != kNoMaterial) {
        seen.albedo = seen_colour(setup, at);
    }
    return seen;
}

// Looks on through smooth glass and in mirrors: at each smooth surface to where light passes, or
// where none passes, to where it is reflected.
class SmoothPath {
  public:
    explicit SmoothPath(const Setup& setup)
        : setup_(setup),
          wavelengths_(make_pass_wavelengths(0, 0)),
          materials_(setup.materials, wavelengths_),
          stage_(setup.stage(materials_, no_light_walks(setup), 0, 0)) {}

    // Replaces what is seen at a raster position by what is seen behind its smooth surfaces.
    void look_on(const Vec2& raster, SeenPoint& seen) const {
        RandomStream random(0, 0, 0, Purpose::kPilot);
        Walk walk;
        walk.ray = setup_.lens.sample_ray(raster, 0.5F, 0.5F).ray;
        walk.media = stage_.start.lens;
        walk.light.hero = kSpectrumSize / 2;
        Vertex vertex;
        float length = 0;
        uint64_t way = 0;  // the surfaces on the way
        while (find_next_vertex(stage_, walk, vertex)) {
            if (!vertex.is_lamp() && is_delta(vertex.bsdf)) {
                length += walk.edge_length;
                way = mix_bits(way, static_cast<uint64_t>(vertex.at.material));
                const ScatterResult result = scatter(
                    stage_, walk, vertex, Carrying::kRadiance, Vec3(0.5F, 0.5F, kPass), random);
                if (result == ScatterResult::kEnded) return;
                continue;
            }
            if (way == 0) return;  // nothing smooth on the way
            length += walk.edge_length;
            seen.position = vertex.at.position;
            seen.normal = glm::dot(vertex.at.shading, vertex.wo_world) > 0.0F ? vertex.at.shading
                                                                              : -vertex.at.shading;
            seen.footprint_m = setup_.lens.pixel_width_at(length);
            way = mix_bits(way, static_cast<uint64_t>(vertex.at.material + 2));
            seen.surface = static_cast<int32_t>((way & 0x3FFFFFFFU) | 0x40000000U);
            if (!vertex.is_lamp()) {
                seen.albedo = seen_colour(setup_, vertex.at);
            }
            return;
        }
    }

  private:
    static constexpr float kPass = 0.9999F;  // as a random number: chooses refraction

    const Setup& setup_;
    Wavelengths wavelengths_;
    PassMaterials materials_;
    Stage stage_;
};

bool may_look_on(const Scene& scene, MaterialId id) {
    if (id == kNoMaterial) return false;
    const MaterialKind kind = scene.materials[static_cast<size_t>(id)].kind;
    return kind == MaterialKind::kGlass || kind == MaterialKind::kThinGlass ||
           kind == MaterialKind::kConductor;
}

// The pixel of the 3 × 3 around (x, y) that sees the surface of `seen` best, row by row; the middle
// one if none does.
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

SharedPixel share_out(
    const Setup& setup, const SmoothPath& path, const SeenPoints& points, int x, int y) {
    SharedPixel shared;
    shared.pixel = y * points.width + x;
    constexpr float kShare = 1.0F / (kGrid * kGrid);
    for (int place = 0; place < kGrid * kGrid; ++place) {
        const Vec2 at((static_cast<float>(place % kGrid) + 0.5F) / kGrid,
                      (static_cast<float>(place / kGrid) + 0.5F) / kGrid);
        size_t k = 4;
        if (place != kGrid * kGrid / 2) {
            const Vec2 raster = Vec2(x, y) + at;
            SeenPoint seen = look_at(setup, raster);
            if (may_look_on(setup.scene, seen.surface)) path.look_on(raster, seen);
            k = best_match(points, x, y, seen);
        }
        shared.shares[k] += kShare;
    }
    return shared;
}

void look_at_all(const Setup& setup, const SmoothPath& path, SeenPoints& points, WorkWatch& watch) {
    parallel_blocks(points.height, kSeenRowsPerBlock, [&](int64_t first, int64_t last) {
        watch.next_block_or_throw();
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < points.width; ++x) {
                const Vec2 raster = Vec2(x, y) + Vec2(0.5F);
                SeenPoint& seen = points.pixels[static_cast<size_t>(y * points.width + x)];
                seen = look_at(setup, raster);
                if (may_look_on(setup.scene, seen.surface)) path.look_on(raster, seen);
            }
        }
    });
}

void share_out_rims(const Setup& setup,
                    const SmoothPath& path,
                    SeenPoints& points,
                    WorkWatch& watch) {
    std::vector<std::vector<SharedPixel>> rows(static_cast<size_t>(points.height));
    parallel_blocks(points.height, kSeenRowsPerBlock, [&](int64_t first, int64_t last) {
        watch.next_block_or_throw();
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < points.width; ++x) {
                if (!is_at_rim(points, x, y)) continue;
                rows[static_cast<size_t>(y)].push_back(share_out(setup, path, points, x, y));
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
    points.pixels.resize(first_hits.surface.size());
    const SmoothPath path(setup);
    const int blocks = (points.height + kSeenRowsPerBlock - 1) / kSeenRowsPerBlock;
    watch.start_step(WorkStep::kSeenPoints, 2 * blocks);
    look_at_all(setup, path, points, watch);
    share_out_rims(setup, path, points, watch);
    return points;
}

}  // namespace dapple
