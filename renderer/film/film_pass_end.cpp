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

// Keeps the means of one pass over the regions and over the frame.
void Film::keep_means(const std::vector<double>& sums) {
    const size_t groups = groups_.size();
    state_.region_passes.resize(regions_.size());
    for (size_t i = 0; i < sums.size(); ++i) {
        const size_t r = i / groups;
        const bool is_frame = r == regions_.size();
        const size_t size = is_frame ? static_cast<size_t>(pixels()) : regions_[r].pixels.size();
        const double mean = sums[i] / static_cast<double>(std::max<size_t>(1, size));
        (is_frame ? state_.frame_passes : state_.region_passes[r]).push_back(mean);
    }
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
    std::vector<double> sums((regions_.size() + 1) * groups_.size());
    std::vector<double> light(from.size());
    for (size_t g = 0; g < groups_.size(); ++g) {
        for (int i = 0; i < pixels(); ++i) {
            light[static_cast<size_t>(i)] = resolve(i, static_cast<int>(g)).y;
        }
        add_to_regions(g, 0, light, sums);
    }
    keep_means(sums);
}

// Adds this pass to the film's sums. Returns the pass's luminance in cd/m², corrected with the
// pass's own ratio and added up over the pixels of each region and, last, of the frame:
// [region * groups + group].
std::vector<double> Film::take_pass() {
    std::vector<double> all((regions_.size() + 1) * groups_.size());
    std::vector<std::vector<double>> by_band(pass_.bands(), all);
    parallel_blocks(static_cast<int64_t>(pass_.bands()), 1, [&](int64_t begin, int64_t) {
        const auto band = static_cast<size_t>(begin);
        take_band(band, by_band[band]);
    });
    for (const std::vector<double>& sums : by_band) {
        for (size_t i = 0; i < all.size(); ++i) all[i] += sums[i];
    }
    return all;
}

void Film::take_band(size_t band, std::vector<double>& sums) {
    const int first = pass_.first_row(band) * width_;
    const auto count = static_cast<size_t>(pass_.first_row(band + 1) * width_ - first);
    add_band(band, state_.sums);
    std::vector<double> luminance(count);
    std::vector<double> of_group(count);
    for (size_t g = 0; g < groups_.size(); ++g) {
        const double ratio = colours_[g].luminance_ratio;
        const std::vector<int64_t> y = pass_.band_sums(band, static_cast<int>(g), 1);
        for (size_t i = 0; i < count; ++i) {
            of_group[i] = static_cast<double>(y[i]) * (quantum_ * ratio);
            luminance[i] += of_group[i];
        }
        add_to_regions(g, first, of_group, sums);
    }
    pass_.clear_band(band);
    for (size_t i = 0; i < count; ++i) take_pixel(first + static_cast<int>(i), luminance[i]);
    halves_.clear_rows(pass_.first_row(band), pass_.first_row(band + 1));
}

void Film::add_to_regions(size_t group,
                          int first,
                          std::span<const double> luminance,
                          std::vector<double>& sums) const {
    const int last = first + static_cast<int>(luminance.size());
    for (size_t r = 0; r < regions_.size(); ++r) {
        const std::vector<int32_t>& pixels = regions_[r].pixels;
        auto pixel = std::lower_bound(pixels.begin(), pixels.end(), first);
        double sum = 0;
        for (; pixel != pixels.end() && *pixel < last; ++pixel) {
            sum += luminance[static_cast<size_t>(*pixel - first)];
        }
        sums[r * groups_.size() + group] += sum;
    }
    double frame = 0;
    for (const double y : luminance) frame += y;
    sums[regions_.size() * groups_.size() + group] += frame;
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
