#include "desk/live_pace.h"

#include <algorithm>
#include <array>

namespace dapple {

namespace {

constexpr int kStepAtFirst = 5;
// A pixel of the light costs as much as so many of the picture: 20 to 40 in the boathouse and in
// the hall.
constexpr double kLightPixel = 30;
constexpr double kKeptWithin = 1.25;  // a size stays while its time is within this factor
constexpr double kNews = 0.5;         // weight of the newest frame

QuickSize size_of(int width, int step) {
    return {(width + step - 1) / step, step};
}

// From the best to the cheapest; at least one.
std::vector<QuickSize> drag_sizes(int widest) {
    const int width = std::min(widest, LivePace::kWidest);
    std::vector<QuickSize> sizes;
    for (const auto& [share, step] :
         {std::pair{1.0, 3}, {1.0, 5}, {1.0, 7}, {0.7, 7}, {0.5, 5}, {0.5, 7}}) {
        const QuickSize size = size_of(static_cast<int>(share * width), step);
        if (size.light_width >= LivePace::kLeastLight) sizes.push_back(size);
    }
    if (sizes.empty()) sizes.push_back({width, 1});
    return sizes;
}

double pixels_of(const QuickSize& size, double shape) {
    const double light = size.light_width * size.light_width * shape;
    return light * (size.step > 1 ? kLightPixel + size.step * size.step : kLightPixel);
}

}  // namespace

double LivePace::time_of(const QuickSize& size, double shape) const {
    return before_s_ + pixel_s_ * pixels_of(size, shape);
}

QuickSize LivePace::drag_size(int widest, double shape) {
    const std::vector<QuickSize> sizes = drag_sizes(widest);
    const auto now = size_ ? std::find(sizes.begin(), sizes.end(), *size_) : sizes.end();
    const auto fits = [&](double time) {
        return std::find_if(sizes.begin(), sizes.end() - 1, [&](const QuickSize& size) {
            return time_of(size, shape) <= time;
        });
    };
    if (now == sizes.end() || !(pixel_s_ > 0)) {
        const auto first = std::find_if(sizes.begin(), sizes.end() - 1, [](const QuickSize& size) {
            return size.step == kStepAtFirst;
        });
        size_ = *first;
    } else if (time_of(*now, shape) > kKeptWithin * kFrameTime) {
        size_ = *fits(kFrameTime);
    } else {
        size_ = *std::min(now, fits(kFrameTime / kKeptWithin));
    }
    return *size_;
}

QuickSize LivePace::rest_size(int widest, double shape) const {
    constexpr std::array<int, 3> kSteps = {5, 7, 9};
    for (const int step : kSteps) {
        const QuickSize size = size_of(widest, step);
        const bool is_last = size_of(widest, step + 2).light_width < kLeastLight;
        if (size.light_width < kLeastLight) break;
        if (is_last || step == kSteps.back() || time_of(size, shape) <= kRestTime) return size;
    }
    return better_rest_size(widest);
}

QuickSize LivePace::better_rest_size(int widest) {
    const QuickSize size = size_of(widest, 3);
    return size.light_width >= kLeastLight ? size : QuickSize{widest, 1};
}

void LivePace::learn(const QuickSize& size, double shape, double before_s, double for_pixels_s) {
    const double pixel_s = for_pixels_s / pixels_of(size, shape);
    const double news = pixel_s_ > 0 ? kNews : 1;
    pixel_s_ += news * (pixel_s - pixel_s_);
    before_s_ += news * (before_s - before_s_);
}

}  // namespace dapple
