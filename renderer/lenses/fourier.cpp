#include "lenses/fourier.h"

#include <fftw3.h>

#include <algorithm>
#include <mutex>
#include <new>

namespace dapple {

namespace {

std::mutex& planner() {  // of the library, which makes one plan at a time
    static std::mutex mutex;
    return mutex;
}

fftwf_complex* raw(std::complex<float>* values) {
    return reinterpret_cast<fftwf_complex*>(values);
}

}  // namespace

template <class T>
FourierMemory<T>::FourierMemory(size_t size) : size_(size) {
    auto* memory = static_cast<T*>(fftwf_malloc(std::max<size_t>(size, 1) * sizeof(T)));
    if (!memory) throw std::bad_alloc();
    std::fill_n(memory, size, T{});
    data_ = std::shared_ptr<T>(memory, [](T* p) { fftwf_free(p); });
}

template class FourierMemory<float>;
template class FourierMemory<std::complex<float>>;

struct PlaneFourier::Plans {
    fftwf_plan forward = nullptr, inverse = nullptr;

    Plans(int width, int height) {
        const auto w = static_cast<size_t>(width);
        const auto h = static_cast<size_t>(height);
        const RealPlane plane(w * h);
        const FourierPlane spectrum((w / 2 + 1) * h);
        const std::lock_guard lock(planner());
        forward =
            fftwf_plan_dft_r2c_2d(height, width, plane.data(), raw(spectrum.data()), FFTW_ESTIMATE);
        inverse =
            fftwf_plan_dft_c2r_2d(height, width, raw(spectrum.data()), plane.data(), FFTW_ESTIMATE);
    }
    Plans(const Plans&) = delete;
    Plans& operator=(const Plans&) = delete;
    ~Plans() {
        const std::lock_guard lock(planner());
        fftwf_destroy_plan(forward);
        fftwf_destroy_plan(inverse);
    }
};

PlaneFourier::PlaneFourier(int width, int height)
    : width_(width), height_(height), plans_(std::make_shared<Plans>(width, height)) {}

RealPlane PlaneFourier::make_plane() const {
    return RealPlane(static_cast<size_t>(width_) * static_cast<size_t>(height_));
}

FourierPlane PlaneFourier::forward(const RealPlane& plane) const {
    FourierPlane spectrum((static_cast<size_t>(width_) / 2 + 1) * static_cast<size_t>(height_));
    fftwf_execute_dft_r2c(plans_->forward, plane.data(), raw(spectrum.data()));
    return spectrum;
}

RealPlane PlaneFourier::inverse(FourierPlane& spectrum) const {
    RealPlane plane = make_plane();
    fftwf_execute_dft_c2r(plans_->inverse, raw(spectrum.data()), plane.data());
    const float scale = 1.0F / (static_cast<float>(width_) * static_cast<float>(height_));
    for (size_t i = 0; i < plane.size(); ++i) plane[i] *= scale;
    return plane;
}

std::vector<float> PlaneFourier::power(const RealPlane& plane) const {
    const FourierPlane half = forward(plane);
    const auto w = static_cast<size_t>(width_);
    const auto h = static_cast<size_t>(height_);
    const size_t columns = w / 2 + 1;
    std::vector<float> power(w * h);
    for (size_t y = 0; y < h; ++y) {
        for (size_t x = 0; x < w; ++x) {
            // The other half has the conjugate of the opposite frequency.
            const bool is_there = x < columns;
            const size_t at = is_there ? y * columns + x : ((h - y) % h) * columns + (w - x);
            power[y * w + x] = std::norm(half[at]);
        }
    }
    return power;
}

int quick_size(int least) {
    const auto is_quick = [](int n) {
        for (const int factor : {2, 3, 5}) {
            while (n % factor == 0) n /= factor;
        }
        return n == 1;
    };
    int size = std::max(least, 2);
    while (size % 2 != 0 || !is_quick(size)) ++size;
    return size;
}

}  // namespace dapple
