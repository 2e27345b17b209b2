#include <algorithm>
#include <map>

#include "base/parallel.h"
#include "develop/exposure.h"
#include "glare/add_spread.h"

namespace dapple {

namespace {

constexpr int kStarWidth = 1280;         // px at most
constexpr double kLeastOfBright = 0.01;  // a group with less of the bright light makes no star

std::vector<size_t> bright_pixels(const std::vector<XyzPlane>& film, double limit) {
    const std::vector<char> bright = find_bright(film, limit);
    std::vector<size_t> pixels;
    for (size_t i = 0; i < bright.size(); ++i) {
        if (bright[i]) pixels.push_back(i);
    }
    return pixels;
}

double sum_of(const XyzPlane& plane, const std::vector<size_t>& pixels) {
    double sum = 0;
    for (const size_t i : pixels) sum += plane[i].y;
    return sum;
}

// Of each channel, the part that each band has in it.
using StarWeights = std::array<std::array<double, kSpectrumSize>, 3>;

StarWeights weights_of(const BandColours& bands) {
    StarWeights weights{};
    for (int c = 0; c < 3; ++c) {
        double sum = 0;
        for (const Xyz& band : bands) sum += band[c];
        for (size_t j = 0; j < bands.size(); ++j) {
            weights[static_cast<size_t>(c)][j] = sum > 0 ? bands[j][c] / sum : 0;
        }
    }
    return weights;
}

class StarPainter {
  public:
    StarPainter(const RealLens& lens, const Camera& camera, int step)
        : step_(step),
          fine_(pixel_grid(camera, 1)),
          grid_(pixel_grid(camera, step)),
          fourier_(quick_size(2 * grid_.width), quick_size(2 * grid_.height)),
          kernel_(lens, dust_of(camera.lens), grid_) {}

    // Before paint(). Lamps of one kind have the same stars.
    void make_stars(const StarWeights& weights) {
        if (stars_.contains(weights)) return;
        std::array<std::optional<FourierPlane>, 3> planes;
        parallel_blocks(3, 1, [&](int64_t c, int64_t) {
            const auto channel = static_cast<size_t>(c);
            planes[channel] = fourier_.forward(kernel_.plane(fourier_, weights[channel]));
        });
        stars_.emplace(weights, Star{*planes[0], *planes[1], *planes[2]});
    }
    void paint(const StarWeights& weights, const XyzPlane& bright, XyzPlane& layer) const {
        const Star& star = stars_.at(weights);
        const XyzPlane coarse = coarsened(bright, fine_, step_);
        std::array<std::optional<RealPlane>, 3> spread;
        parallel_blocks(3, 1, [&](int64_t first, int64_t) {
            const auto c = static_cast<size_t>(first);
            spread[c].emplace(spread_channel(coarse, c, star[c]));
        });
        for (int y = 0; y < fine_.height; ++y) {
            for (int x = 0; x < fine_.width; ++x) {
                layer[static_cast<size_t>(y * fine_.width + x)] +=
                    between_pixels(grid_, step_, x, y, [&](int i, int j) {
                        const auto at = static_cast<size_t>(j * fourier_.width() + i);
                        return Xyz((*spread[0])[at], (*spread[1])[at], (*spread[2])[at]);
                    });
            }
        }
    }

  private:
    static Dust dust_of(const CameraLens& lens) {
        return {lens.dust, lens.scratches, lens.dust_seed};
    }
    using Star = std::array<FourierPlane, 3>;
    RealPlane spread_channel(const XyzPlane& bright,
                             size_t channel,
                             const FourierPlane& star) const {
        RealPlane plane = fourier_.make_plane();
        for (int y = 0; y < grid_.height; ++y) {
            for (int x = 0; x < grid_.width; ++x) {
                plane[static_cast<size_t>(y * fourier_.width() + x)] = static_cast<float>(
                    bright[static_cast<size_t>(y * grid_.width + x)][static_cast<int>(channel)]);
            }
        }
        FourierPlane light = fourier_.forward(plane);
        for (size_t i = 0; i < light.size(); ++i) light[i] *= star[i];
        return fourier_.inverse(light);
    }

    int step_;
    PixelGrid fine_, grid_;
    PlaneFourier fourier_;
    StarKernel kernel_;
    std::map<StarWeights, Star> stars_;
};

}  // namespace

void add_stars(const RealLens& lens,
               const Camera& camera,
               const std::vector<BandColours>& colours,
               const std::vector<XyzPlane>& film,
               std::vector<XyzPlane>& layers) {
    const std::vector<size_t> bright =
        bright_pixels(film, kBrightOfWhite * white_luminance(camera));
    double all = 0;
    for (const XyzPlane& plane : film) all += sum_of(plane, bright);
    if (!(all > 0)) return;
    StarPainter painter(lens, camera, coarse_step(camera, kStarWidth));
    std::vector<size_t> starry;  // layers
    for (size_t g = 0; g < film.size(); ++g) {
        if (sum_of(film[g], bright) < kLeastOfBright * all) continue;
        starry.push_back(g);
        painter.make_stars(weights_of(colours[g]));
    }
    parallel_blocks(static_cast<int64_t>(starry.size()), 1, [&](int64_t first, int64_t) {
        const size_t g = starry[static_cast<size_t>(first)];
        XyzPlane light(film[g].size(), Xyz(0));
        for (const size_t i : bright) light[i] = film[g][i];
        painter.paint(weights_of(colours[g]), light, layers[g]);
    });
}

}  // namespace dapple
