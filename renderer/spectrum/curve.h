// A function of wavelength, tabulated every nanometre from 380 to 780, interpolated linearly.
// Units are the user's: relative power, power per lumen, reflectance, absorption per metre.
#pragma once

#include <array>
#include <functional>
#include <vector>

#include "spectrum/spectrum.h"
#include "spectrum/wavelengths.h"

namespace dapple {

class Curve {
  public:
    static constexpr int kSize = 401;  // 380 … 780 nm

    Curve() { values_.fill(0.0F); }
    explicit Curve(float constant) { values_.fill(constant); }
    // From a formula, evaluated at every whole nanometre.
    explicit Curve(const std::function<double(double nm)>& f);
    // From a table at equal steps, interpolated linearly; its end values are held outside.
    Curve(const std::vector<double>& table, double first_nm, double step_nm);

    float at(float nm) const;  // end values held outside 380–780 nm
    Spectrum at(const Wavelengths& wavelengths) const;

    float& operator[](int i) { return values_[static_cast<size_t>(i)]; }
    float operator[](int i) const { return values_[static_cast<size_t>(i)]; }
    static double nm(int i) { return kMinWavelength + i; }

    Curve& operator*=(double scale);
    Curve& operator*=(const Curve& b);
    Curve& operator+=(const Curve& b);
    friend Curve operator*(Curve a, double scale) { return a *= scale; }
    friend Curve operator*(Curve a, const Curve& b) { return a *= b; }
    friend Curve operator+(Curve a, const Curve& b) { return a += b; }

  private:
    std::array<float, kSize> values_;
};

// ∫ a(λ) b(λ) dλ over 380–780 nm by the 1 nm sum that CIE 15 recommends.
double integrate(const Curve& a, const Curve& b);

}  // namespace dapple
