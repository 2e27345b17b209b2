#include "film/film.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstring>
#include <thread>

#include "base/large_memory.h"
#include "base/parallel.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

// XYZ of the group's light as the pass's wavelengths see it.
Xyz drawn_xyz(const GroupColour& colour) {
    return Xyz(colour.x.sum(), colour.y.sum(), colour.z.sum());
}

// A run of pixels at once.
template <typename T>
using Run [[gnu::vector_size(PixelRun::kMost * sizeof(T))]] = T;

// Adds quanta to the first `count` sums, each to the nearest integer (halves' neighbours aside).
void add_rounded(const Run<float>& quanta, int count, int64_t* sums) {
    const auto exact = __builtin_convertvector(quanta, Run<double>);
    const auto whole = __builtin_convertvector(exact + (exact < 0 ? -0.5 : 0.5), Run<int64_t>);
    if (count == PixelRun::kMost) {
        Run<int64_t> all;
        std::memcpy(&all, sums, sizeof(all));
        all += whole;
        std::memcpy(sums, &all, sizeof(all));
    } else {
        for (int i = 0; i < count; ++i) sums[i] += whole[i];
    }
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
    // Splats fall everywhere in turn.
    reserve_large(state_.sums, groups_.size() * n * 3);
    state_.sums.resize(groups_.size() * n * 3);
    before_.resize(groups_.size() * n);
    locks_.resize(static_cast<size_t>((height + kBandRows - 1) / kBandRows));
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

// Keeps a band of rows for one thread: far cheaper than an atomic addition for each sum.
class Film::BandGuard {
  public:
    explicit BandGuard(BandLock& lock) : held_(lock.held) {
        while (held_.exchange(true, std::memory_order_acquire)) {
            while (held_.load(std::memory_order_relaxed)) std::this_thread::yield();
        }
    }
    ~BandGuard() { held_.store(false, std::memory_order_release); }
    BandGuard(const BandGuard&) = delete;
    BandGuard& operator=(const BandGuard&) = delete;

  private:
    std::atomic_ref<bool> held_;
};

bool Film::in_quanta(int group, const Spectrum& throughput, Quanta& q) {
    const GroupColour& colour = colours_[static_cast<size_t>(group)];
    const double per_quantum = 1 / quantum_;  // a power of two: exact
    q = {dot(throughput, colour.x) * per_quantum,
         dot(throughput, colour.y) * per_quantum,
         dot(throughput, colour.z) * per_quantum};
    constexpr double kLimit = 0x1p53;  // beyond this a sum of passes could overflow
    if (std::abs(q[0]) < kLimit && std::abs(q[1]) < kLimit && std::abs(q[2]) < kLimit) return true;
    std::atomic_ref<uint64_t>(state_.nonfinite).fetch_add(1, std::memory_order_relaxed);
    return false;
}

void Film::add_spread(std::span<const PixelRun> runs,
                      const float* shares,
                      int first_group,
                      int groups,
                      std::span<const Spectrum> throughputs) {
    const size_t parts = throughputs.size();
    for (int g = first_group; g < first_group + groups; ++g) {
        std::array<std::array<float, 3>, kSpectrumSize> quanta;
        for (size_t k = 0; k < parts; ++k) {
            Quanta q;
            if (!in_quanta(g, throughputs[k], q)) return;
            for (size_t c = 0; c < 3; ++c) quanta[k][c] = static_cast<float>(q[c]);
        }
        const float* of_part = shares;
        for (size_t i = 0; i < runs.size();) {
            const size_t band = band_of(runs[i].first);
            const BandGuard guard(locks_[band]);
            for (; i < runs.size() && band_of(runs[i].first) == band; ++i) {
                std::array<Run<float>, 3> xyz{};
                for (size_t k = 0; k < parts; ++k, of_part += PixelRun::kMost) {
                    Run<float> share;
                    std::memcpy(&share, of_part, sizeof(share));
                    for (size_t c = 0; c < 3; ++c) xyz[c] += quanta[k][c] * share;
                }
                for (size_t c = 0; c < 3; ++c) {
                    add_rounded(xyz[c], runs[i].count, &state_.sums[plane(g, c)] + runs[i].first);
                }
            }
        }
    }
}

void Film::add(int pixel, int group, const Spectrum& throughput) {
    const BandGuard guard(locks_[band_of(pixel)]);
    add_alone(pixel, group, throughput);
}

void Film::add_alone(int pixel, int group, const Spectrum& throughput) {
    Quanta q{};
    if (!in_quanta(group, throughput, q)) return;
    for (size_t c = 0; c < 3; ++c) {
        state_.sums[plane(group, c) + static_cast<size_t>(pixel)] +=
            static_cast<int64_t>(q[c] + (q[c] < 0 ? -0.5 : 0.5));
    }
}

void Film::end_pass() {
    ++state_.passes;
    for (size_t g = 0; g < groups_.size(); ++g) {
        const Xyz drawn = drawn_xyz(colours_[g]);
        for (int c = 0; c < 3; ++c) state_.drawn_xyz[3 * g + static_cast<size_t>(c)] += drawn[c];
    }
    const std::vector<double> luminance = take_pass_luminance();
    state_.region_passes.resize(regions_.size());
    for (size_t r = 0; r < regions_.size(); ++r) {
        double sum = 0;
        for (const int32_t pixel : regions_[r].pixels) sum += luminance[static_cast<size_t>(pixel)];
        const auto count = static_cast<double>(std::max<size_t>(1, regions_[r].pixels.size()));
        state_.region_passes[r].push_back(sum / count);
    }
    double frame_sum = 0;
    for (const double y : luminance) frame_sum += y;
    state_.frame_passes.push_back(frame_sum / std::max(1, pixels()));
}

// What this pass added, with its own ratio correction, cd/m² by pixel; also into the squares.
std::vector<double> Film::take_pass_luminance() {
    const auto n = static_cast<size_t>(pixels());
    std::vector<double> luminance(n);
    parallel_blocks(pixels(), 16384, [&](int64_t first, int64_t last) {
        for (size_t g = 0; g < groups_.size(); ++g) {
            const double scale = quantum_ * static_cast<double>(colours_[g].luminance_ratio);
            const int64_t* const sums = &state_.sums[plane(static_cast<int>(g), 1)];
            int64_t* const before = &before_[g * n];
            for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
                luminance[i] += static_cast<double>(sums[i] - before[i]) * scale;
                before[i] = sums[i];
            }
        }
        for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
            state_.luminance_sums[i] += luminance[i];
            state_.luminance_squares[i] += luminance[i] * luminance[i];
        }
    });
    return luminance;
}

Xyz Film::resolve(int pixel, int group) const {
    if (state_.passes == 0) return Xyz(0.0);
    const auto g = static_cast<size_t>(group);
    Xyz result(0.0);
    for (int c = 0; c < 3; ++c) {
        const double drawn = state_.drawn_xyz[3 * g + static_cast<size_t>(c)];
        const double exact = exact_xyz_[g][c];
        // sum / passes · exact / (drawn / passes): the passes cancel.
        const size_t at = plane(group, static_cast<size_t>(c)) + static_cast<size_t>(pixel);
        const double sum = static_cast<double>(state_.sums[at]) * quantum_;
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
    if (!same) return false;
    state_ = std::move(state);
    const auto n = static_cast<size_t>(pixels());
    for (size_t g = 0; g < groups_.size(); ++g) {
        const auto y = static_cast<std::ptrdiff_t>(plane(static_cast<int>(g), 1));
        const auto size = static_cast<std::ptrdiff_t>(n);
        const auto first = state_.sums.begin() + y;
        std::copy(first, first + size, before_.begin() + static_cast<std::ptrdiff_t>(g) * size);
    }
    return true;
}

Film::MeanAndError Film::frame_luminance() const {
    return mean_and_error(state_.frame_passes);
}

}  // namespace dapple
