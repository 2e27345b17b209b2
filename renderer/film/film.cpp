#include "film/film.h"

#include <algorithm>
#include <atomic>
#include <cmath>

#include "base/parallel.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

// XYZ of the group's light as the pass's wavelengths see it.
Xyz drawn_xyz(const GroupColour& colour) {
    return Xyz(colour.x.sum(), colour.y.sum(), colour.z.sum());
}

void add_atomic(int64_t& sum, int64_t value) {
    std::atomic_ref<int64_t>(sum).fetch_add(value, std::memory_order_relaxed);
}

Film::MeanAndError mean_and_error(const std::vector<double>& values) {
    Film::MeanAndError result;
    if (values.empty()) return result;
    const auto n = static_cast<double>(values.size());
    for (const double v : values) result.mean += v / n;
    if (values.size() < 2) return result;
    double squares = 0;
    for (const double v : values) squares += (v - result.mean) * (v - result.mean);
    result.stderr_of_mean = std::sqrt(squares / (n * (n - 1)));
    return result;
}

}  // namespace

GroupColour make_group_colour(const LightGroup& group, const Wavelengths& wavelengths) {
    const Observer& o = cie_1931();
    Spectrum scale = group.spectrum.at(wavelengths);
    for (int j = 0; j < kSpectrumSize; ++j) {
        scale[j] *= static_cast<float>(kLuminousEfficacy) /
                    (static_cast<float>(kSpectrumSize) * wavelengths.pdf[j]);
    }
    GroupColour colour;
    colour.x = scale * o.x.at(wavelengths);
    colour.y = scale * o.y.at(wavelengths);
    colour.z = scale * o.z.at(wavelengths);
    const double exact = luminous_flux(group.spectrum);
    const double drawn = colour.y.sum();
    colour.luminance_ratio = drawn > 0 ? static_cast<float>(exact / drawn) : 1.0F;
    return colour;
}

Film::Film(int width, int height, std::vector<LightGroup> groups, double quantum)
    : width_(width), height_(height), groups_(std::move(groups)), quantum_(quantum) {
    const auto n = static_cast<size_t>(pixels());
    state_.sums.resize(groups_.size() * n * 3);
    pass_luminance_.resize(n);
    state_.luminance_squares.resize(n);
    state_.luminance_sums.resize(n);
    state_.drawn_xyz.resize(groups_.size() * 3);
    for (const LightGroup& group : groups_) {
        exact_xyz_.push_back(kLuminousEfficacy * integrate_xyz(group.spectrum));
    }
}

void Film::begin_pass(const Wavelengths& wavelengths) {
    colours_.clear();
    for (const LightGroup& group : groups_) {
        colours_.push_back(make_group_colour(group, wavelengths));
    }
}

void Film::add(int pixel, int group, const Spectrum& throughput) {
    const PixelShare whole{pixel, 1.0F};
    add(std::span(&whole, 1), group, throughput);
}

void Film::add(std::span<const PixelShare> shares, int group, const Spectrum& throughput) {
    const GroupColour& colour = colours_[static_cast<size_t>(group)];
    const double per_quantum = 1 / quantum_;  // a power of two: exact
    const double x = dot(throughput, colour.x) * per_quantum;
    const double y = dot(throughput, colour.y) * per_quantum;
    const double z = dot(throughput, colour.z) * per_quantum;
    constexpr double kLimit = 0x1p53;  // beyond this a sum of passes could overflow
    if (!(std::abs(x) < kLimit && std::abs(y) < kLimit && std::abs(z) < kLimit)) {
        std::atomic_ref<uint64_t>(state_.nonfinite).fetch_add(1, std::memory_order_relaxed);
        return;
    }
    const size_t layer = static_cast<size_t>(group) * static_cast<size_t>(pixels());
    for (const PixelShare& s : shares) {
        const size_t at = (layer + static_cast<size_t>(s.pixel)) * 3;
        add_atomic(state_.sums[at], std::llround(x * s.share));
        add_atomic(state_.sums[at + 1], std::llround(y * s.share));
        add_atomic(state_.sums[at + 2], std::llround(z * s.share));
        add_atomic(pass_luminance_[static_cast<size_t>(s.pixel)],
                   std::llround(y * s.share * colour.luminance_ratio));
    }
}

void Film::end_pass() {
    ++state_.passes;
    for (size_t g = 0; g < groups_.size(); ++g) {
        const Xyz drawn = drawn_xyz(colours_[g]);
        for (int c = 0; c < 3; ++c) state_.drawn_xyz[3 * g + static_cast<size_t>(c)] += drawn[c];
    }
    state_.region_passes.resize(regions_.size());
    for (size_t r = 0; r < regions_.size(); ++r) {
        int64_t sum = 0;
        for (const int32_t pixel : regions_[r].pixels) {
            sum += pass_luminance_[static_cast<size_t>(pixel)];
        }
        const auto count = static_cast<double>(std::max<size_t>(1, regions_[r].pixels.size()));
        state_.region_passes[r].push_back(static_cast<double>(sum) * quantum_ / count);
    }
    int64_t frame_sum = 0;
    for (const int64_t y : pass_luminance_) frame_sum += y;
    state_.frame_passes.push_back(static_cast<double>(frame_sum) * quantum_ /
                                  std::max(1, pixels()));
    parallel_blocks(pixels(), 16384, [&](int64_t first, int64_t last) {
        for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
            const double y = static_cast<double>(pass_luminance_[i]) * quantum_;
            state_.luminance_sums[i] += y;
            state_.luminance_squares[i] += y * y;
            pass_luminance_[i] = 0;
        }
    });
}

Xyz Film::resolve(int pixel, int group) const {
    if (state_.passes == 0) return Xyz(0.0);
    const auto g = static_cast<size_t>(group);
    const size_t at = (g * static_cast<size_t>(pixels()) + static_cast<size_t>(pixel)) * 3;
    Xyz result(0.0);
    for (int c = 0; c < 3; ++c) {
        const double drawn = state_.drawn_xyz[3 * g + static_cast<size_t>(c)];
        const double exact = exact_xyz_[g][c];
        // sum / passes · exact / (drawn / passes): the passes cancel.
        const double sum = static_cast<double>(state_.sums[at + static_cast<size_t>(c)]) * quantum_;
        result[c] = drawn > 0 ? sum * exact / drawn : 0.0;
    }
    return result;
}

Xyz Film::resolve(int pixel) const {
    Xyz total(0.0);
    for (int g = 0; g < static_cast<int>(groups_.size()); ++g) total += resolve(pixel, g);
    return total;
}

double Film::luminance_stderr(int pixel) const {
    if (state_.passes < 2) return 0;
    const auto i = static_cast<size_t>(pixel);
    const auto n = static_cast<double>(state_.passes);
    const double mean = state_.luminance_sums[i] / n;
    const double variance =
        std::max(0.0, state_.luminance_squares[i] / n - mean * mean) * n / (n - 1);
    return std::sqrt(variance / n);
}

Film::MeanAndError Film::region_luminance(size_t region) const {
    return region < state_.region_passes.size() ? mean_and_error(state_.region_passes[region])
                                                : MeanAndError{};
}

bool Film::restore(FilmState state) {
    const bool same = state.sums.size() == state_.sums.size() &&
                      state.luminance_sums.size() == state_.luminance_sums.size() &&
                      state.luminance_squares.size() == state_.luminance_squares.size() &&
                      state.drawn_xyz.size() == state_.drawn_xyz.size() &&
                      state.region_passes.size() == regions_.size();
    if (same) state_ = std::move(state);
    return same;
}

Film::MeanAndError Film::frame_luminance() const {
    return mean_and_error(state_.frame_passes);
}

}  // namespace dapple
