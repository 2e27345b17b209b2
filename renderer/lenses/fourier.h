// Fourier transforms of real images, single precision (FFTW 3).
//
// Plans are estimated, not measured, and all memory is aligned alike, so that the same numbers give
// the same bits.
#pragma once

#include <complex>
#include <memory>
#include <vector>

namespace dapple {

// Memory aligned for the transforms, all 0 at first.
template <class T>
class FourierMemory {
  public:
    explicit FourierMemory(size_t size);
    T* data() const { return data_.get(); }
    size_t size() const { return size_; }
    T& operator[](size_t i) { return data_.get()[i]; }
    const T& operator[](size_t i) const { return data_.get()[i]; }

  private:
    size_t size_;
    std::shared_ptr<T> data_;
};

using RealPlane = FourierMemory<float>;
using FourierPlane = FourierMemory<std::complex<float>>;

class PlaneFourier {
  public:
    PlaneFourier(int width, int height);

    int width() const { return width_; }
    int height() const { return height_; }
    RealPlane make_plane() const;
    FourierPlane forward(const RealPlane& plane) const;
    // Scaled, so that it undoes forward(). Overwrites `spectrum`.
    RealPlane inverse(FourierPlane& spectrum) const;

    // |F|² of a real image on all frequencies, the frequency 0 at (0, 0); rows of `width`.
    std::vector<float> power(const RealPlane& plane) const;

  private:
    struct Plans;
    int width_, height_;
    std::shared_ptr<const Plans> plans_;
};

// The next size from `least` on that is quick to transform.
int quick_size(int least);

}  // namespace dapple
