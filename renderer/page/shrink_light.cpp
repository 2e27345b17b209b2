#include "page/shrink_light.h"

namespace dapple {

std::vector<Rgb> shrink_light(const std::vector<Rgb>& light, int width, int height, int shrink) {
    if (shrink == 1) return light;
    std::vector<Rgb> small;
    for (int y = 0; y + shrink <= height; y += shrink) {
        for (int x = 0; x + shrink <= width; x += shrink) {
            Rgb sum(0);
            for (int k = 0; k < shrink * shrink; ++k) {
                const int i = (y + k / shrink) * width + x + k % shrink;
                sum += light[static_cast<size_t>(i)];
            }
            small.push_back(sum / static_cast<float>(shrink * shrink));
        }
    }
    return small;
}

}  // namespace dapple
