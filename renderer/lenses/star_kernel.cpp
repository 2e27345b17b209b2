#include "lenses/star_kernel.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "lenses/lens_wavelengths.h"

namespace dapple {

namespace {

constexpr int kAcross = 512;        // samples across the aperture
constexpr int kSize = 1024;         // the spread reaches 256 λN, at half of λN
constexpr double kCoreReach = 190;  // in λN of the shortest wavelength, well within that
constexpr double kFarStep = 0.25;   // px along a ray
constexpr int kSubBands = 3;        // wavelengths across a band, so that fringes run together

double mm_from_nm(double nm) {
    return 1e-6 * nm;
}

// Adds to the four pixels around a place, on a plane that wraps around.
void add_around(RealPlane& plane, const PlaneFourier& size, double x, double y, double value) {
    const double fx = std::floor(x);
    const double fy = std::floor(y);
    const double u = x - fx;
    const double v = y - fy;
    const int w = size.width();
    const int h = size.height();
    for (int k = 0; k < 4; ++k) {
        const int px = ((static_cast<int>(fx) + (k & 1)) % w + w) % w;
        const int py = ((static_cast<int>(fy) + (k >> 1)) % h + h) % h;
        const double weight = ((k & 1) ? u : 1 - u) * ((k >> 1) ? v : 1 - v);
        plane[static_cast<size_t>(py * w + px)] += static_cast<float>(weight * value);
    }
}

}  // namespace

StarKernel::StarKernel(const RealLens& lens, const Dust& dust, const PixelGrid& pixels)
    : pixels_(pixels), edges_(edges_of(lens.stop())), f_number_(lens.f_number()) {
    spread_ = diffract(aperture_of(lens.stop(), 2 * lens.entrance_radius(), dust), kAcross, kSize);
    core_radius_ = kCoreReach * mm_from_nm(kLensWavelengths.front()) * f_number_;
    core_half_ = static_cast<int>(std::ceil(core_radius_ / pixels_.pitch)) + 1;
    for (size_t band = 0; band < kSpectrumSize; ++band) {
        const double low = std::max(kLensBandEdges[band], 400.0);
        const double high = std::min(kLensBandEdges[band + 1], 700.0);
        const int across = 2 * core_half_ + 1;
        cores_[band].assign(static_cast<size_t>(across * across), 0.0F);
        for (int k = 0; k < kSubBands; ++k) {
            add_core(band, low + (high - low) * (k + 0.5) / kSubBands);
        }
    }
}

void StarKernel::add_core(size_t band, double nm) {
    const double sample = spread_.pitch * mm_from_nm(nm) * f_number_;  // mm
    const int across = 2 * core_half_ + 1;
    const int reach = std::min(kSize / 2 - 1, static_cast<int>(core_radius_ / sample));
    std::vector<float>& core = cores_[band];
    for (int dy = -reach; dy <= reach; ++dy) {
        for (int dx = -reach; dx <= reach; ++dx) {
            if (dx * dx + dy * dy > reach * reach) continue;
            const auto px = static_cast<int>(std::lround(dx * sample / pixels_.pitch));
            const auto py = static_cast<int>(std::lround(dy * sample / pixels_.pitch));
            core[static_cast<size_t>((py + core_half_) * across + px + core_half_)] +=
                spread_.at(dx, dy) / kSubBands;
        }
    }
}

// E123 from the core on outwards; a round stop sends the same light evenly to all sides.
void StarKernel::add_far(RealPlane& plane, const PlaneFourier& fourier, double mean_nm) const {
    const double area = kPi / 4;  // of the round stop, in its diameters
    const double length = edges_.normals.empty() ? kPi : edges_.length;
    const double strength = mm_from_nm(mean_nm) * f_number_ * length / (4 * kPi * kPi * area);
    const double farthest = std::hypot(pixels_.width, pixels_.height);  // px
    const double nearest = core_radius_ / pixels_.pitch;
    for (double r = nearest; r < farthest; r += kFarStep) {
        const double light =
            strength / pixels_.pitch * (1 / r - 1 / (r + kFarStep));  // on one side of an edge
        const double middle = r + 0.5 * kFarStep;
        const auto add = [&](double angle, double value) {
            const double x = middle * std::cos(angle);
            const double y = middle * std::sin(angle);
            if (std::abs(x) < pixels_.width && std::abs(y) < pixels_.height) {
                add_around(plane, fourier, x, y, value);
            }
        };
        for (const double normal : edges_.normals) {
            add(normal, light);
            add(normal + kPi, light);
        }
        if (!edges_.normals.empty()) continue;
        const int places = static_cast<int>(std::ceil(2 * kPi * middle));
        for (int k = 0; k < places; ++k) add(2 * kPi * (k + 0.5) / places, 2 * light / places);
    }
}

RealPlane StarKernel::plane(const PlaneFourier& fourier,
                            const std::array<double, kSpectrumSize>& weights) const {
    RealPlane plane = fourier.make_plane();
    const int across = 2 * core_half_ + 1;
    double mean_nm = 0;
    for (size_t band = 0; band < kSpectrumSize; ++band)
        mean_nm += weights[band] * kLensWavelengths[band];
    for (int y = -core_half_; y <= core_half_; ++y) {
        for (int x = -core_half_; x <= core_half_; ++x) {
            double value = 0;
            for (size_t band = 0; band < kSpectrumSize; ++band) {
                const auto at = static_cast<size_t>((y + core_half_) * across + x + core_half_);
                value += weights[band] * static_cast<double>(cores_[band][at]);
            }
            if (x != 0 || y != 0) add_around(plane, fourier, x, y, value);
        }
    }
    add_far(plane, fourier, mean_nm);
    double sum = 0;
    for (size_t i = 0; i < plane.size(); ++i) sum += static_cast<double>(plane[i]);
    plane[0] -= static_cast<float>(sum);
    return plane;
}

}  // namespace dapple
