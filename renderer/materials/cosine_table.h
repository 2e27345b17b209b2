// A function of cosθ on [0, 1], tabulated at equal steps of √cosθ and interpolated linearly. The
// entries are close together at grazing angles, where values change fast.
#pragma once

#include <array>
#include <cmath>

namespace dapple {

class CosineTable {
  public:
    static constexpr int kSize = 65;

    float& operator[](int i) { return values_[static_cast<size_t>(i)]; }
    float operator[](int i) const { return values_[static_cast<size_t>(i)]; }
    static double cosine(int i) {
        const double s = static_cast<double>(i) / (kSize - 1);
        return s * s;
    }

    float at(float cosine) const {
        const float x = std::sqrt(std::fmin(std::fmax(cosine, 0.0F), 1.0F)) * (kSize - 1);
        const int i = std::min(static_cast<int>(x), kSize - 2);
        const float t = x - static_cast<float>(i);
        return (*this)[i] + t * ((*this)[i + 1] - (*this)[i]);
    }

    // ∫ f(c) 2c dc over [0, 1]: the mean under light from the whole hemisphere.
    double diffuse_average() const {
        constexpr int kSteps = 4096;
        double sum = 0;
        for (int i = 0; i < kSteps; ++i) {
            const double s = (i + 0.5) / kSteps;  // c = s², 2c dc = 4 s³ ds
            sum += 4 * s * s * s * at(static_cast<float>(s * s));
        }
        return sum / kSteps;
    }

  private:
    std::array<float, kSize> values_{};
};

}  // namespace dapple
