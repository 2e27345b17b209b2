#include "film/film.h"

#include <algorithm>
#include <atomic>
#include <cmath>

#include "base/fill_in_steps.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

// To the nearest integer; halves away from zero.
PixelQuanta rounded(const std::array<double, 3>& xyz) {
    PixelQuanta whole;
    for (size_t c = 0; c < 3; ++c) {
        whole[c] = static_cast<int64_t>(xyz[c] + (xyz[c] < 0 ? -0.5 : 0.5));
    }
    return whole;
}

Film::MeanAndError mean_and_error(const GroupMeans& means) {
    return {means.sum(), means.stderr_of_sum().value_or(0)};
}

}  // namespace

Film::Film(int width, int height, std::vector<LightGroup> groups, double quantum)
    : width_(width),
      height_(height),
      groups_(std::move(groups)),
      quantum_(quantum),
      pass_(width, height, static_cast<int>(groups_.size())),
      halves_(width, height),
      locks_(pass_.bands()) {
    const auto n = static_cast<size_t>(pixels());
    reserve_large(state_.sums, groups_.size() * n * 3);
    state_.sums.resize(groups_.size() * n * 3);
    grow_in_steps(state_.luminance_squares, n);
    grow_in_steps(state_.walk_differences, 3 * n);
    for (QuantaPlane* plane :
         {&state_.other_light, &state_.odd_other_light, &state_.brightest_pass}) {
        grow_in_steps(*plane, n);
    }
    grow_in_steps(state_.colour_sums, 6 * n);
    state_.drawn_xyz.resize(groups_.size() * 3);
    for (const LightGroup& group : groups_) {
        exact_xyz_.push_back(kLuminousEfficacy * integrate_xyz(group.spectrum));
    }
}

void Film::begin_pass(const Wavelengths& wavelengths) {
    nonfinite_before_ = state_.nonfinite;
    colours_.clear();
    for (const LightGroup& group : groups_) {
        colours_.push_back(make_group_colour(group, wavelengths));
    }
}

std::optional<Film::ExactQuanta> Film::in_quanta(int group, const Spectrum& throughput) {
    const GroupColour& colour = colours_[static_cast<size_t>(group)];
    const double per_quantum = 1 / quantum_;  // a power of two: exact
    const ExactQuanta q = {dot(throughput, colour.x) * per_quantum,
                           dot(throughput, colour.y) * per_quantum,
                           dot(throughput, colour.z) * per_quantum};
    constexpr double kLimit = 0x1p53;  // beyond this a sum of passes could overflow
    if (std::abs(q[0]) < kLimit && std::abs(q[1]) < kLimit && std::abs(q[2]) < kLimit) return q;
    std::atomic_ref<uint64_t>(state_.nonfinite).fetch_add(1, std::memory_order_relaxed);
    return std::nullopt;
}

// The quanta of each part of a splat for a weight of one.
struct Film::PartQuanta {
    std::array<std::array<float, 3>, kSpectrumSize> xyz;
    bool is_small;  // no pixel gets more than PassSums::kMostAtOnce

    RunQuanta weighted(const RunWeights* weights, size_t parts) const {
        RunQuanta sum{};
        for (size_t k = 0; k < parts; ++k) {
            for (size_t c = 0; c < 3; ++c) sum.xyz[c] += xyz[k][c] * weights[k].v;
        }
        return sum;
    }
};

std::optional<Film::PartQuanta> Film::in_quanta(int group, std::span<const Spectrum> throughputs) {
    PartQuanta parts;
    float most = 0;
    for (size_t k = 0; k < throughputs.size(); ++k) {
        const std::optional<ExactQuanta> q = in_quanta(group, throughputs[k]);
        if (!q) return std::nullopt;
        for (size_t c = 0; c < 3; ++c) {
            parts.xyz[k][c] = static_cast<float>((*q)[c]);
            most = std::max(most, std::abs(parts.xyz[k][c]));
        }
    }
    parts.is_small = most * static_cast<float>(throughputs.size()) < PassSums::kMostAtOnce;
    return parts;
}

void Film::add_spread(const Splat& splat) {
    const std::span<const PixelRun> runs = splat.runs;
    const size_t parts = splat.throughputs.size();
    for (int g = splat.first_group; g < splat.first_group + splat.groups; ++g) {
        const std::optional<PartQuanta> quanta = in_quanta(g, splat.throughputs);
        if (!quanta) return;
        const std::array<float, 3>& ratios = colours_[static_cast<size_t>(g)].ratios;
        for (size_t i = 0; i < runs.size();) {
            const size_t band = PassSums::band_of(runs[i].y);
            const BandLocks::Guard guard = locks_.hold(band);
            for (; i < runs.size() && PassSums::band_of(runs[i].y) == band; ++i) {
                const RunQuanta sum = quanta->weighted(&splat.weights[i * parts], parts);
                halves_.add(
                    {sum.xyz[0] * ratios[0], sum.xyz[1] * ratios[1], sum.xyz[2] * ratios[2]},
                    runs[i],
                    splat.half);
                if (quanta->is_small) {
                    pass_.add(sum, runs[i], g);
                } else {
                    add_large(sum, runs[i], g);
                }
            }
        }
    }
}

// The caller holds the band's lock.
void Film::add_large(const RunQuanta& quanta, const PixelRun& run, int group) {
    for (int i = 0; i < std::min(PixelRun::kMost, width_ - run.x); ++i) {
        const PixelQuanta q = rounded({quanta.xyz[0][i], quanta.xyz[1][i], quanta.xyz[2][i]});
        const int x = run.x + i;
        if (!pass_.add_if_fits(q, x, run.y, group)) pass_.put_aside(q, x, run.y, group);
    }
}

void Film::add(int x, int y, int group, const Spectrum& throughput, int half) {
    const std::optional<ExactQuanta> q = in_quanta(group, throughput);
    if (!q) return;
    const PixelQuanta whole = rounded(*q);
    const BandLocks::Guard guard = locks_.hold(PassSums::band_of(y));
    if (!pass_.add_if_fits(whole, x, y, group)) pass_.put_aside(whole, x, y, group);
    if (half == kNoHalf) return;
    std::array<float, 3> xyz{};
    for (size_t c = 0; c < 3; ++c) {
        const auto ratio = static_cast<double>(colours_[static_cast<size_t>(group)].ratios[c]);
        xyz[c] = static_cast<float>((*q)[c] * ratio);
    }
    halves_.add(xyz, x, y, half);
}

void Film::add_alone(int x, int y, int group, const Spectrum& throughput) {
    const std::optional<ExactQuanta> q = in_quanta(group, throughput);
    if (q) add_alone(x, y, group, *q);
}

void Film::add_alone(int x, int y, int group, const ExactQuanta& quanta) {
    const PixelQuanta whole = rounded(quanta);
    if (pass_.add_if_fits(whole, x, y, group)) return;
    const BandLocks::Guard guard = locks_.hold(PassSums::band_of(y));
    pass_.put_aside(whole, x, y, group);
}

std::optional<Xyz> Film::in_xyz(int group, const Spectrum& throughput) {
    const std::optional<ExactQuanta> q = in_quanta(group, throughput);
    if (!q) return std::nullopt;
    return quantum_ * Xyz((*q)[0], (*q)[1], (*q)[2]);
}

void Film::add_alone(int x, int y, int group, const Xyz& luminance) {
    const double per_quantum = 1 / quantum_;
    add_alone(x,
              y,
              group,
              ExactQuanta{
                  luminance.x * per_quantum, luminance.y * per_quantum, luminance.z * per_quantum});
}

// Adds what the pass has summed so far in a band to `sums`.
void Film::add_band(size_t band, FilmSums& sums) const {
    const auto first = static_cast<size_t>(pass_.first_row(band) * width_);
    for (int g = 0; g < static_cast<int>(groups_.size()); ++g) {
        for (size_t c = 0; c < 3; ++c) {
            int64_t* const to = &sums[plane(g, c) + first];
            const std::vector<int64_t> added = pass_.band_sums(band, g, c);
            for (size_t i = 0; i < added.size(); ++i) to[i] += added[i];
        }
    }
}

FilmSums Film::sums() const {
    FilmSums all = state_.sums;
    for (size_t band = 0; band < pass_.bands(); ++band) add_band(band, all);
    return all;
}

Xyz Film::resolve(int pixel, int group) const {
    if (passes() == 0) return Xyz(0.0);
    const auto g = static_cast<size_t>(group);
    Xyz result(0.0);
    for (int c = 0; c < 3; ++c) {
        const double drawn = static_cast<double>(state_.drawn_xyz[3 * g + static_cast<size_t>(c)]) *
                             FilmState::kDrawnQuantum;
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

int64_t Film::luminance_quanta(int pixel) const {
    const auto n = static_cast<size_t>(pixels());
    const auto i = static_cast<size_t>(pixel);
    return state_.colour_sums[n + i] + state_.colour_sums[4 * n + i];
}

Film::MeanAndError Film::mean_of_squares(int64_t n, int64_t sum, SquareSum squares) const {
    const auto count = static_cast<double>(n);
    const double mean = in_cd_m2(sum) / count;
    if (n < 2) return {mean, 0};
    const int64_t near = sum / n;  // the mean, but for a fraction
    const auto wide = [](int64_t value) { return static_cast<SquareSum>(value); };
    // Σ (x - near)². Its terms may outgrow 128 bits and wrap, the whole does not.
    const SquareSum about =
        squares - 2 * wide(near) * wide(sum) + wide(n) * wide(near) * wide(near);
    const auto rest = static_cast<double>(sum - near * n);
    const double variance =
        std::max(0.0, static_cast<double>(about) - rest * rest / count) / (count - 1);
    return {mean, std::sqrt(variance / count) * quantum_};
}

double Film::luminance_stderr(int pixel) const {
    if (passes() < 2) return 0;
    const SquareSum squares = state_.luminance_squares[static_cast<size_t>(pixel)];
    return mean_of_squares(passes(), luminance_quanta(pixel), squares).stderr_of_mean;
}

Film::MeanAndError Film::without_brightest_pass(int pixel) const {
    if (passes() < 2) return {};
    const auto i = static_cast<size_t>(pixel);
    const auto brightest = static_cast<SquareSum>(state_.brightest_pass[i]);
    return mean_of_squares(passes() - 1,
                           luminance_quanta(pixel) - state_.brightest_pass[i],
                           state_.luminance_squares[i] - brightest * brightest);
}

Film::MeanAndError Film::region_luminance(size_t region) const {
    return mean_and_error(region_means(region));
}

GroupMeans Film::region_means(size_t region) const {
    if (region >= state_.region_passes.size()) return make_group_means({}, groups_.size());
    return make_group_means(state_.region_passes[region], groups_.size());
}

GroupMeans Film::frame_means() const {
    return make_group_means(state_.frame_passes, groups_.size());
}

bool Film::restore(FilmState state) {
    const auto rows = static_cast<size_t>(state.passes.count()) * groups_.size();
    const bool same =
        is_like(state, state_) && state.region_passes.size() == regions_.size() &&
        state.frame_passes.size() == rows &&
        std::all_of(state.region_passes.begin(),
                    state.region_passes.end(),
                    [&](const std::vector<double>& passes) { return passes.size() == rows; });
    if (!same) return false;
    state_ = std::move(state);
    return true;
}

Film::MeanAndError Film::frame_luminance() const {
    return mean_and_error(frame_means());
}

}  // namespace dapple
