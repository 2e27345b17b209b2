// The end of a pass: its sums are added to the film's, or dropped.
#include <algorithm>

#include "base/parallel.h"
#include "film/film.h"

namespace dapple {

namespace {

// XYZ that the pass's wavelengths give the group's source.
Xyz drawn_xyz(const GroupColour& colour) {
    return Xyz(colour.x.sum(), colour.y.sum(), colour.z.sum());
}

}  // namespace

void Film::end_pass() {
    ++state_.passes;
    for (size_t g = 0; g < groups_.size(); ++g) {
        const Xyz drawn = drawn_xyz(colours_[g]);
        for (int c = 0; c < 3; ++c) state_.drawn_xyz[3 * g + static_cast<size_t>(c)] += drawn[c];
    }
    keep_means(take_pass());
}

// Keeps the means of one pass over the frame and over the regions.
void Film::keep_means(const std::vector<double>& luminance) {
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

void Film::drop_pass() {
    // New memory is there at once; clearing gigabytes takes seconds.
    pass_ = PassSums(width_, height_, static_cast<int>(groups_.size()));
    halves_ = HalfSums(width_, height_);
    state_.nonfinite = nonfinite_before_;
}

void Film::fill_pixels(const std::vector<int32_t>& from) {
    const auto fill = [&](auto* values) {
        for (size_t i = 0; i < from.size(); ++i) values[i] = values[static_cast<size_t>(from[i])];
    };
    parallel_blocks(static_cast<int64_t>(3 * groups_.size()), 1, [&](int64_t first, int64_t) {
        fill(&state_.sums[static_cast<size_t>(first) * from.size()]);
    });
    for (std::vector<double>* plane : {&state_.luminance_sums,
                                       &state_.luminance_squares,
                                       &state_.walk_differences,
                                       &state_.other_light,
                                       &state_.odd_other_light,
                                       &state_.brightest_pass}) {
        fill(plane->data());
    }
    state_.frame_passes.clear();
    state_.region_passes.clear();
    keep_means(state_.luminance_sums);
}

// Adds this pass to the film's sums. Returns the pass's luminance by pixel in cd/m², corrected with
// the pass's own ratio; the sums of luminance and of its squares get it too.
std::vector<double> Film::take_pass() {
    std::vector<double> luminance(static_cast<size_t>(pixels()));
    parallel_blocks(static_cast<int64_t>(pass_.bands()), 1, [&](int64_t begin, int64_t) {
        take_band(static_cast<size_t>(begin), luminance);
    });
    return luminance;
}

void Film::take_band(size_t band, std::vector<double>& luminance) {
    const int first = pass_.first_row(band) * width_;
    const int last = pass_.first_row(band + 1) * width_;
    add_band(band, state_.sums);
    for (int g = 0; g < static_cast<int>(groups_.size()); ++g) {
        const double ratio = colours_[static_cast<size_t>(g)].luminance_ratio;
        const std::vector<int64_t> y = pass_.band_sums(band, g, 1);
        for (int i = first; i < last; ++i) {
            luminance[static_cast<size_t>(i)] +=
                static_cast<double>(y[static_cast<size_t>(i - first)]) * (quantum_ * ratio);
        }
    }
    pass_.clear_band(band);
    for (int i = first; i < last; ++i) take_pixel(i, luminance[static_cast<size_t>(i)]);
    halves_.clear_rows(pass_.first_row(band), pass_.first_row(band + 1));
}

// Adds a pixel's luminance in this pass to what is kept by pixel.
void Film::take_pixel(int pixel, double luminance) {
    const auto i = static_cast<size_t>(pixel);
    const bool is_odd = state_.passes % 2 == 0;  // the passes include this one, counted from 0
    const auto half = [&](int h) {
        return static_cast<double>(halves_.sum(pixel % width_, pixel / width_, h)) * quantum_;
    };
    const double other = luminance - half(0) - half(1);
    state_.luminance_sums[i] += luminance;
    state_.luminance_squares[i] += luminance * luminance;
    state_.walk_differences[i] += is_odd ? half(1) - half(0) : half(0) - half(1);
    state_.other_light[i] += other;
    if (is_odd) state_.odd_other_light[i] += other;
    state_.brightest_pass[i] = std::max(state_.brightest_pass[i], luminance);
}

}  // namespace dapple
