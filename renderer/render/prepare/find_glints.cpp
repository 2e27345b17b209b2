#include "render/prepare/find_glints.h"

#include <algorithm>
#include <map>
#include <numeric>

#include "base/parallel.h"
#include "math/sequences.h"
#include "math/warps.h"
#include "render/prepare/glint_search.h"

namespace dapple {

namespace {

constexpr int kGlintRowsPerBlock = 4;
constexpr double kShareOfWalks = 0.1;  // at most, of a pass's camera walks
constexpr uint32_t kSamples = 256;     // of a glint, to find its pixels
constexpr double kWalksOfPixel = 3;    // per pass, that start inside the pixel
constexpr double kMostStarts = 64;     // per pass and pixel

// Whether a surface of this material can show an image of a lamp. A pane shows it at its full size.
bool may_show_glints(const Material& material) {
    const bool smooth = square(material.roughness) < kSmoothAlpha;
    return smooth &&
           (material.kind == MaterialKind::kGlass || material.kind == MaterialKind::kConductor ||
            material.kind == MaterialKind::kCoated || material.kind == MaterialKind::kThinGlass);
}

class GlintPixels {
  public:
    GlintPixels(const Scene& scene, const FirstHits& first_hits) : first_hits_(first_hits) {
        for (const Material& m : scene.materials) may_.push_back(may_show_glints(m) ? 1 : 0);
    }
    bool any() const { return std::find(may_.begin(), may_.end(), 1) != may_.end(); }
    // Whether the pixel or a neighbour sees a smooth surface.
    bool may_have_glints(int x, int y) const {
        for (int v = std::max(0, y - 1); v <= std::min(first_hits_.height - 1, y + 1); ++v) {
            for (int u = std::max(0, x - 1); u <= std::min(first_hits_.width - 1, x + 1); ++u) {
                const int32_t id =
                    first_hits_.surface[static_cast<size_t>(v * first_hits_.width + u)];
                if (id != kNoMaterial && may_[static_cast<size_t>(id)] != 0) return true;
            }
        }
        return false;
    }

  private:
    const FirstHits& first_hits_;
    std::vector<uint8_t> may_;  // by material
};

std::vector<FoundGlint> search_frame(const Setup& setup,
                                     const FirstHits& first_hits,
                                     const GlintPixels& pixels,
                                     WorkWatch& watch) {
    const GlintSearch search(setup);
    const int blocks = (first_hits.height + kGlintRowsPerBlock - 1) / kGlintRowsPerBlock;
    std::vector<std::vector<FoundGlint>> rows(static_cast<size_t>(first_hits.height));
    watch.start_step(WorkStep::kPilotWalks, blocks);
    parallel_blocks(first_hits.height, kGlintRowsPerBlock, [&](int64_t first, int64_t last) {
        watch.next_block_or_throw();
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < first_hits.width; ++x) {
                if (!pixels.may_have_glints(x, y)) continue;
                search.search(Vec2(x, y) + Vec2(0.5F), rows[static_cast<size_t>(y)]);
            }
        }
    });
    std::vector<FoundGlint> all;
    for (const std::vector<FoundGlint>& row : rows) all.insert(all.end(), row.begin(), row.end());
    return all;
}

// Several places of the frame find the same glint. Keeps one of each.
std::vector<Glint> without_doubles(const std::vector<FoundGlint>& found) {
    std::map<std::pair<int, int>, std::vector<const FoundGlint*>> kept;  // by pixel
    std::vector<Glint> glints;
    const auto is_known = [&](const FoundGlint& g, int x, int y) {
        const auto in_pixel = kept.find({x, y});
        if (in_pixel == kept.end()) return false;
        return std::any_of(in_pixel->second.begin(), in_pixel->second.end(), [&](const auto* k) {
            const Vec2 apart = k->glint.lamp_per_px * (g.glint.centre - k->glint.centre);
            return k->lamp == g.lamp && k->events == g.events && k->choices == g.choices &&
                   glm::length(apart) < 0.5F * k->glint.radii[0];
        });
    };
    for (const FoundGlint& g : found) {
        stop_if_asked();
        const glm::ivec2 at(glm::floor(g.glint.centre));
        bool known = false;
        for (int i = 0; i < 9 && !known; ++i) {
            known = is_known(g, at.x + i % 3 - 1, at.y + i / 3 - 1);
        }
        if (known) continue;
        kept[{at.x, at.y}].push_back(&g);
        glints.push_back(g.glint);
    }
    return glints;
}

// The pixels in which a glint's walks start, each with its share of them.
std::map<int, double> pixels_of(const Glint& glint, const FirstHits& first_hits, float c_span) {
    std::map<int, double> shares;
    for (uint32_t i = 0; i < kSamples; ++i) {
        const auto u = sobol_owen_4d(i, 1);
        const auto v = sobol_owen_4d(i, 2);
        const GlintShift shift{glint.c + (v[2] - 0.5F) * c_span, sample_disk(v[0], v[1])};
        const glm::ivec2 at(glm::floor(glint.sample(shift, u[0], u[1], u[2])));
        if (at.x < 0 || at.y < 0 || at.x >= first_hits.width || at.y >= first_hits.height) continue;
        shares[at.y * first_hits.width + at.x] += 1.0 / kSamples;
    }
    return shares;
}

}  // namespace

GlintMap find_glints(const Setup& setup,
                     const FirstHits& first_hits,
                     const std::vector<uint8_t>& walks,
                     WorkWatch& watch) {
    const GlintPixels pixels(setup.scene, first_hits);
    if (!pixels.any() || setup.emitters.empty()) return {};
    std::vector<Glint> glints = without_doubles(search_frame(setup, first_hits, pixels, watch));
    std::stable_sort(glints.begin(), glints.end(), [](const Glint& a, const Glint& b) {
        return a.worth > b.worth;
    });
    const double all = std::accumulate(walks.begin(), walks.end(), 0.0);
    const float c_span = WavelengthCoordinate(make_pass_wavelengths(0, 0)).span;
    double used = 0;
    std::vector<std::pair<int, GlintMap::OfPixel>> of_pixels;
    for (size_t g = 0; g < glints.size() && used < kShareOfWalks * all; ++g) {
        stop_if_asked();
        for (const auto& [pixel, share] : pixels_of(glints[g], first_hits, c_span)) {
            const double starts = std::min(kMostStarts, std::ceil(kWalksOfPixel / share));
            of_pixels.push_back({pixel, {static_cast<int>(g), static_cast<uint32_t>(starts)}});
            used += starts * share;
        }
    }
    return {std::move(glints), of_pixels};
}

}  // namespace dapple
