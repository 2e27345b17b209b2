// Veiling glare: the light that glass, barrel and dust scatter over the whole picture.
//
// The wide point spread, of the part a of all light (our own; Harvey-like, the slopes as in
// measured spreads of cameras: Reinhard, Ward, Pattanaik, Debevec 2006):
//   K(r) = (1 - a) δ + a Σ w (q - 2)/(2π r₀²) (1 + (r/r₀)²)^(-q/2),  Σw = 1                 (E124)
// with w = ½, ½; r₀ = 0.1 and 5 mm; q = 2.6 and 3, for a picture 36 x 24 mm. Inside the radius s
// are F(s) = 1 - (1 + (s/r₀)²)^(1 - q/2) of a term. The veiling glare index (ISO 9358) is the light
// in the middle of a black spot on an endless bright field, over the field's:
//   index = a Σ w (1 - F(s)),  s a twentieth of the picture's diagonal                      (E125)
#pragma once

namespace dapple {

class Veil {
  public:
    // `diagonal`: of the picture, mm.
    explicit Veil(double diagonal) : scale_(diagonal / kUsualDiagonal) {}

    // The part of all light that is scattered, for an index.
    double scattered_for(double index) const;
    // Σ w (1 - F(s)): the part of the scattered light that goes further than `radius`, mm.
    double beyond(double radius) const;
    double spot_radius() const { return 0.05 * kUsualDiagonal * scale_; }  // mm
    // Scattered light per mm², of the scattered light; integrates to 1.
    double density(double radius) const;
    // The mean of the density over a square cell of this width, mm, at (x, y).
    double cell_density(double x, double y, double width) const;

  private:
    static constexpr double kUsualDiagonal = 43.2666;  // mm, of 36 x 24

    double scale_;
};

}  // namespace dapple
