// The end of a pass: its sums are added to the film's, or dropped.
#include <algorithm>
#include <array>

#include "base/parallel.h"
#include "film/film.h"

namespace dapple {

namespace {

// XYZ that the pass's wavelengths give the group's source.
Xyz drawn_xyz(const GroupColour& colour) {
    return Xyz(colour.x.sum(), colour.y.sum(), colour.z.sum());
}

// To the nearest integer. Numbers beyond 2^60 count as 2^60.
int64_t whole(double value) {
    const double held = std::clamp(value, -0x1p60, 0x1p60);
    return static_cast<int64_t>(held + (held < 0 ? -0.5 : 0.5));
}

// The system provides the memory of the sums where it is first used, in pages of 2 MB. Else the
// first band, which uses a page of each plane, would take a tenth of a second or more.
void provide_memory(FilmSums& sums) {
    constexpr int64_t kPage = (int64_t{2} << 20U) / static_cast<int64_t>(sizeof(int64_t));
    parallel_blocks(static_cast<int64_t>(sums.size()), kPage, [&](int64_t first, int64_t) {
        volatile int64_t& sum = sums[static_cast<size_t>(first)];
        sum = sum;
    });
}

}  // namespace

void Film::end_pass() {
    const int64_t number = next_pass();
    for (size_t g = 0; g < groups_.size(); ++g) {
        const Xyz drawn = drawn_xyz(colours_[g]);
        for (int c = 0; c < 3; ++c) {
            state_.drawn_xyz[3 * g + static_cast<size_t>(c)] +=
                whole(drawn[c] / FilmState::kDrawnQuantum);
        }
    }
    keep_means(take_pass(number), static_cast<size_t>(state_.passes.count_below(number)));
    state_.passes.add(PassRange{number, number + 1});
}

// Keeps the means of one pass over the regions and over the frame, as the pass in row `row`.
void Film::keep_means(const std::vector<double>& sums, size_t row) {
    const size_t groups = groups_.size();
    state_.region_passes.resize(regions_.size());
    for (size_t r = 0; r <= regions_.size(); ++r) {
        const bool is_frame = r == regions_.size();
        const size_t size = is_frame ? static_cast<size_t>(pixels()) : regions_[r].pixels.size();
        std::vector<double> means(groups);
        for (size_t g = 0; g < groups; ++g) {
            means[g] = sums[r * groups + g] / static_cast<double>(std::max<size_t>(1, size));
        }
        std::vector<double>& rows = is_frame ? state_.frame_passes : state_.region_passes[r];
        rows.insert(
            rows.begin() + static_cast<std::ptrdiff_t>(row * groups), means.begin(), means.end());
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
    fill(state_.luminance_squares.data());
    for (size_t c = 0; c < 3; ++c) fill(&state_.walk_differences[c * from.size()]);
    for (QuantaPlane* plane :
         {&state_.other_light, &state_.odd_other_light, &state_.brightest_pass}) {
        fill(plane->data());
    }
    for (size_t c = 0; c < 6; ++c) fill(&state_.colour_sums[c * from.size()]);
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
    keep_means(sums, 0);
}

// Adds this pass to the film's sums. Returns the pass's luminance in cd/m², corrected with the
// pass's own ratio and added up over the pixels of each region and, last, of the frame:
// [region * groups + group].
std::vector<double> Film::take_pass(int64_t number) {
    std::vector<double> all((regions_.size() + 1) * groups_.size());
    std::vector<std::vector<double>> by_band(pass_.bands(), all);
    if (state_.passes.count() == 0) provide_memory(state_.sums);
    parallel_blocks(static_cast<int64_t>(pass_.bands()), 1, [&](int64_t begin, int64_t) {
        const auto band = static_cast<size_t>(begin);
        take_band(band, number, by_band[band]);
    });
    for (const std::vector<double>& sums : by_band) {
        for (size_t i = 0; i < all.size(); ++i) all[i] += sums[i];
    }
    return all;
}

// What corrects the pass's XYZ of a group, which are in quanta.
Xyz Film::pass_correction(size_t group) const {
    const Xyz drawn = drawn_xyz(colours_[group]);
    const auto ratio = [&](int c) { return drawn[c] > 0 ? exact_xyz_[group][c] / drawn[c] : 0.0; };
    return {ratio(0), colours_[group].ratios[1], ratio(2)};
}

void Film::take_band(size_t band, int64_t number, std::vector<double>& sums) {
    const int first = pass_.first_row(band) * width_;
    const auto count = static_cast<size_t>(pass_.first_row(band + 1) * width_ - first);
    add_band(band, state_.sums);
    std::array<std::vector<double>, 3> xyz;  // in quanta
    xyz.fill(std::vector<double>(count));
    std::vector<double> luminance(count);  // of a group, cd/m²
    for (size_t g = 0; g < groups_.size(); ++g) {
        const Xyz correction = pass_correction(g);
        for (size_t c = 0; c < 3; ++c) {
            const double scale = correction[static_cast<int>(c)];
            const std::vector<int64_t> added = pass_.band_sums(band, static_cast<int>(g), c);
            for (size_t i = 0; i < count; ++i) {
                const double light = static_cast<double>(added[i]) * scale;
                xyz[c][i] += light;
                if (c == 1) luminance[i] = light * quantum_;
            }
        }
        add_to_regions(g, first, luminance, sums);
    }
    pass_.clear_band(band);
    for (size_t i = 0; i < count; ++i) {
        const PixelQuanta light = {whole(xyz[0][i]), whole(xyz[1][i]), whole(xyz[2][i])};
        take_pixel(first + static_cast<int>(i), number, light);
    }
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

// Adds a pixel's light in this pass to what is kept by pixel.
void Film::take_pixel(int pixel, int64_t number, const PixelQuanta& xyz) {
    const auto i = static_cast<size_t>(pixel);
    const bool is_odd = number % 2 != 0;
    const int64_t luminance = xyz[1];
    const int64_t other = luminance - halves_.luminance(pixel % width_, pixel / width_);
    const PixelQuanta difference = halves_.difference(pixel % width_, pixel / width_);
    const auto square = static_cast<SquareSum>(luminance);
    state_.luminance_squares[i] += square * square;
    state_.other_light[i] += other;
    if (is_odd) state_.odd_other_light[i] += other;
    state_.brightest_pass[i] = std::max(state_.brightest_pass[i], luminance);
    for (size_t c = 0; c < 3; ++c) {
        const size_t at = (is_odd ? 3 + c : c) * static_cast<size_t>(pixels());
        state_.colour_sums[at + i] += xyz[c];
        state_.walk_differences[c * static_cast<size_t>(pixels()) + i] +=
            is_odd ? -difference[c] : difference[c];
    }
}

}  // namespace dapple
