// A spectrum without negative values in twenty bytes. Each value is a multiple of 1/65535 of the
// largest, so its error is at most 8e-6 of the largest.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>

#include "spectrum/spectrum.h"

namespace dapple {

class PackedSpectrum {
  public:
    PackedSpectrum() = default;
    explicit PackedSpectrum(const Spectrum& s) {
        const float largest = s.max();
        constexpr float kLeast = 1e-30F;  // darker and non-finite spectra become black
        if (!(largest > kLeast && s.is_finite())) return;
        step_ = largest / kSteps;
        for (int j = 0; j < kSpectrumSize; ++j) {
            const float steps = std::max(0.0F, s[j] / step_) + 0.5F;
            values_[static_cast<size_t>(j)] = static_cast<uint16_t>(steps);
        }
    }

    Spectrum unpacked() const {
        Spectrum s;
        for (int j = 0; j < kSpectrumSize; ++j) {
            s[j] = static_cast<float>(values_[static_cast<size_t>(j)]) * step_;
        }
        return s;
    }

  private:
    static constexpr float kSteps = 65535;

    std::array<uint16_t, kSpectrumSize> values_{};
    float step_ = 0;
};

}  // namespace dapple
