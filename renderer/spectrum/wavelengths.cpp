#include "spectrum/wavelengths.h"

#include <cmath>

#include "base/random.h"

namespace dapple {

namespace {

constexpr double kSlope = 0.0072;  // per nm
constexpr double kPeak = 538.0;    // nm
const double kLow = std::tanh(kSlope * (kMinWavelength - kPeak));
const double kHigh = std::tanh(kSlope * (kMaxWavelength - kPeak));

}  // namespace

double sample_visible_wavelength(double u) {
    return kPeak + std::atanh(kLow + u * (kHigh - kLow)) / kSlope;
}

double pdf_visible_wavelength(double nm) {
    if (nm < kMinWavelength || nm > kMaxWavelength) return 0;
    const double c = std::cosh(kSlope * (nm - kPeak));
    return kSlope / ((kHigh - kLow) * c * c);
}

Wavelengths make_pass_wavelengths(uint64_t seed, uint32_t pass) {
    RandomStream stream(seed, 0, 0, Purpose::kWavelengths);
    constexpr double kStep = (3 + 0.61803398874989484820) / kSpectrumSize;
    const double u = stream.next() + pass * kStep;
    Wavelengths w;
    for (int j = 0; j < kSpectrumSize; ++j) {
        const double shifted = u + static_cast<double>(j) / kSpectrumSize;
        const double nm = sample_visible_wavelength(shifted - std::floor(shifted));
        w.nm[j] = static_cast<float>(nm);
        w.pdf[j] = static_cast<float>(pdf_visible_wavelength(nm));
    }
    return w;
}

}  // namespace dapple
