#include "sheets/reduce_picture.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "spectrum/white_balance.h"

namespace dapple {

namespace {

Rgb decoded(const Rgb& c) {
    return Rgb(srgb_decode(c.r), srgb_decode(c.g), srgb_decode(c.b));
}
Rgb encoded_of(const Rgb& c) {
    return Rgb(srgb_encode(c.r), srgb_encode(c.g), srgb_encode(c.b));
}

// The mean over [first, last) of values one step apart; the parts of steps at the ends count less.
template <class At>
Rgb mean_between(double first, double last, int count, const At& at) {
    Rgb sum(0);
    for (int i = static_cast<int>(first); i < std::min(count, static_cast<int>(std::ceil(last)));
         ++i) {
        const double part = std::min(last, i + 1.0) - std::max(first, static_cast<double>(i));
        sum += static_cast<float>(part) * at(i);
    }
    return sum / static_cast<float>(last - first);
}

}  // namespace

Picture reduce_picture(const Picture& encoded, int most_side) {
    const int side = std::max(encoded.width, encoded.height);
    if (side <= most_side) return encoded;
    const double scale = static_cast<double>(side) / most_side;
    Picture small{std::max(1, static_cast<int>(std::lround(encoded.width / scale))),
                  std::max(1, static_cast<int>(std::lround(encoded.height / scale))),
                  {}};
    small.pixels.resize(static_cast<size_t>(small.width) * static_cast<size_t>(small.height));
    const double step_x = static_cast<double>(encoded.width) / small.width;
    const double step_y = static_cast<double>(encoded.height) / small.height;
    parallel_blocks(small.height, 4, [&](int64_t begin, int64_t end) {
        for (int y = static_cast<int>(begin); y < static_cast<int>(end); ++y) {
            for (int x = 0; x < small.width; ++x) {
                const auto row_mean = [&](int v) {
                    return mean_between(x * step_x, (x + 1) * step_x, encoded.width, [&](int u) {
                        return decoded(encoded.at(u, v));
                    });
                };
                const Rgb mean =
                    mean_between(y * step_y, (y + 1) * step_y, encoded.height, row_mean);
                small.pixels[static_cast<size_t>(y * small.width + x)] = encoded_of(mean);
            }
        }
    });
    return small;
}

}  // namespace dapple
