#include "judge/judge_glare.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "develop/develop.h"
#include "develop/exposure.h"
#include "judge/luminance_statistics.h"

namespace dapple {

namespace {

constexpr size_t kFewPixels = 40;  // too few for percentiles
constexpr double kLeastGlareShare = 0.005;

struct ContrastPair {
    double lost = 0, raised = 0;  // stops
};

class GlareJudge {
  public:
    explicit GlareJudge(const FilmRecord& record)
        : record_(record),
          row_(glm::transpose(glm::inverse(develop_matrix(record.camera)))[1]),
          floor_(1e-4 * white_luminance(record.camera)) {}

    double luminance_of(const Rgb& colour) const {
        return static_cast<double>(glm::dot(row_, colour));
    }
    double glare_at(int32_t i) const { return luminance_of(record_.glare[static_cast<size_t>(i)]); }

    GlarePart judge(const std::string& name, const std::vector<int32_t>& pixels) const {
        GlarePart part;
        part.name = name;
        part.pixels = static_cast<int>(pixels.size());
        for (const int32_t i : pixels) part.mean_glare += glare_at(i) / std::max(1, part.pixels);
        part.by_fixture = by_fixture(pixels);
        if (pixels.size() < kFewPixels) {
            part.contrast_lost = part.shadows_raised =
                Measure::unknown(pixels.empty() ? kNoPixels : "too few pixels");
            return part;
        }
        const ContrastPair middle = contrast(pixels, 0);
        part.contrast_lost.value = middle.lost;
        part.shadows_raised.value = middle.raised;
        if (!record_.noise_known() || record_.noise.empty()) return part;
        const ContrastPair one = contrast(pixels, 1);
        const ContrastPair two = contrast(pixels, -1);
        part.contrast_lost.error = 0.5 * std::abs(one.lost - two.lost);
        part.shadows_raised.error = 0.5 * std::abs(one.raised - two.raised);
        return part;
    }

  private:
    // Of the film, or of one half of its walks: `noise` is 1 or -1.
    ContrastPair contrast(const std::vector<int32_t>& pixels, float noise) const {
        std::vector<double> light;
        for (const int32_t i : pixels) {
            const auto at = static_cast<size_t>(i);
            const float h = noise != 0 ? noise * record_.noise[at] : 0.0F;
            light.push_back(std::max(static_cast<double>(record_.luminance[at] + h), floor_));
        }
        const LuminanceStatistics part = make_luminance_statistics(light);
        const auto median_glare_where = [&](const auto& counts) {
            std::vector<double> glare;
            for (size_t k = 0; k < light.size(); ++k) {
                if (counts(light[k])) glare.push_back(glare_at(pixels[k]));
            }
            const auto middle = glare.begin() + static_cast<std::ptrdiff_t>(glare.size() / 2);
            std::nth_element(glare.begin(), middle, glare.end());
            return glare.empty() ? 0.0 : *middle;
        };
        const double dark = median_glare_where([&](double l) { return l <= part.p05; });
        const double lit = median_glare_where([&](double l) { return l >= part.p95; });
        const double on_dark = std::max(dark, 0.0);
        const double on_lit = std::clamp(lit, 0.0, on_dark);
        return {
            std::log2((part.p05 + on_dark) / part.p05) - std::log2((part.p95 + on_lit) / part.p95),
            std::log2(std::max(part.p05 + dark, floor_) / part.p05)};
    }

    std::vector<GlareOfFixture> by_fixture(const std::vector<int32_t>& pixels) const {
        std::vector<double> by_layer(record_.layers.size(), 0.0);
        parallel_blocks(static_cast<int64_t>(by_layer.size()), 1, [&](int64_t g, int64_t) {
            const LightLayer& layer = record_.layers[static_cast<size_t>(g)];
            double sum = 0;
            for (const int32_t i : pixels) {
                sum += std::max(0.0, luminance_of(layer.glare[static_cast<size_t>(i)]));
            }
            by_layer[static_cast<size_t>(g)] = sum;
        });
        std::vector<double> sums(record_.fixtures.size(), 0.0);
        double all = 0;
        for (size_t g = 0; g < by_layer.size(); ++g) {
            const int fixture = record_.layers[g].fixture;
            if (fixture < 0) continue;
            sums[static_cast<size_t>(fixture)] += by_layer[g];
            all += by_layer[g];
        }
        std::vector<GlareOfFixture> list;
        for (size_t f = 0; f < sums.size(); ++f) {
            if (all > 0 && sums[f] > kLeastGlareShare * all) {
                list.push_back({record_.fixtures[f].name, sums[f] / all});
            }
        }
        std::stable_sort(list.begin(), list.end(), [](const auto& a, const auto& b) {
            return a.share > b.share;
        });
        return list;
    }

    const FilmRecord& record_;
    Vec3 row_;
    double floor_;  // cd/m², of the dark end: 13 stops under white
};

std::vector<int32_t> without_faces(const std::vector<int32_t>& pixels,
                                   const std::vector<char>& left_out) {
    std::vector<int32_t> kept;
    for (const int32_t i : pixels) {
        if (left_out.empty() || !left_out[static_cast<size_t>(i)]) kept.push_back(i);
    }
    return kept;
}

}  // namespace

std::optional<GlareJudgement> judge_glare(const FilmRecord& record,
                                          const std::vector<char>& left_out) {
    if (!record.has_glare()) return std::nullopt;
    const GlareJudge judge(record);
    std::vector<int32_t> all;
    for (int32_t i = 0; i < record.pixels(); ++i) all.push_back(i);
    all = without_faces(all, left_out);
    GlareJudgement result;
    result.picture = judge.judge("picture", all);
    for (const RegionRecord& region : record.regions) {
        result.regions.push_back(
            judge.judge(region.region.name, without_faces(region.pixels, left_out)));
    }
    std::vector<double> with;
    for (const int32_t i : all) {
        with.push_back(static_cast<double>(record.luminance[static_cast<size_t>(i)]) +
                       judge.glare_at(i));
    }
    if (with.empty()) return result;
    result.mean_luminance = make_luminance_statistics(with).mean;
    const StopsStatistics stops = make_stops_statistics(with, white_luminance(record.camera));
    result.clipped_share = stops.clipped_share;
    result.deep_shadow_share = stops.deep_shadow_share;
    return result;
}

}  // namespace dapple
