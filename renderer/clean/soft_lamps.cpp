#include "clean/soft_lamps.h"

namespace dapple {

SoftLamps::SoftLamps(const SeenPoints& seen) {
    for (size_t i = 0; i < seen.pixels.size(); ++i) {
        if (is_soft_lamp(seen.pixels[i])) pixels_[seen.pixels[i].surface].push_back(i);
    }
}

void SoftLamps::even_out(Plane& light) const {
    for (const auto& [surface, pixels] : pixels_) {
        double sum = 0;
        for (const size_t i : pixels) sum += static_cast<double>(light[i]);
        const auto mean = static_cast<float>(sum / static_cast<double>(pixels.size()));
        for (const size_t i : pixels) light[i] = mean;
    }
}

}  // namespace dapple
