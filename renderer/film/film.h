// What passes add up to: per pixel and light group CIE XYZ, Y in cd/m².
//
// Sums are integers (fixed point), so that any order of adding gives the same bits, also when films
// of other passes are added (merge_films.h). One layer is one light group. Beside the layers the
// film sums the luminance of each finished pass, all groups together; its spread over the passes
// gives the standard error (E111).
//
// The few wavelengths drawn in the first passes would tint the picture. So each layer is corrected
// by the ratio of its source's exact XYZ to the XYZ that those wavelengths give it: a ratio
// estimator, consistent (Cochran 1977, chapter 6) (E109). Words: pixel_run.h.
//
// For the clean frame (clean/) the film also keeps, per pixel, what separates light from its noise:
// the XYZ by which the two halves of each pass's light walks differ, all other light of all passes
// and of every second pass, and the luminance of the brightest pass.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "film/band_locks.h"
#include "film/film_state.h"
#include "film/group_means.h"
#include "film/half_sums.h"
#include "film/light_group.h"
#include "film/pass_sums.h"
#include "math/vec.h"

namespace dapple {

// A region of the frame. The film keeps its mean in each pass, so that its standard error counts
// what its pixels have in common.
struct PixelSet {
    std::string name;
    std::vector<int32_t> pixels;  // ascending
};

class Film {
  public:
    // `quantum`: cd/m² of one unit of the integer sums, a power of two.
    Film(int width, int height, std::vector<LightGroup> groups, double quantum);

    int width() const { return width_; }
    int height() const { return height_; }
    int pixels() const { return width_ * height_; }
    const std::vector<LightGroup>& groups() const { return groups_; }
    // Memory of one light group.
    size_t bytes_per_group() const {
        return (state_.sums.size() * sizeof(int64_t) + pass_.bytes()) / groups_.size();
    }
    int passes() const { return static_cast<int>(state_.passes.count()); }
    uint64_t nonfinite_samples() const { return state_.nonfinite; }
    uint64_t rays() const { return state_.rays; }

    // Passes are made from this number on, from 0; those that the film has are left out.
    void set_first_pass(int64_t first) { first_pass_ = first; }
    // The number of the pass that is made next.
    int64_t next_pass() const { return state_.passes.first_missing(first_pass_); }

    void set_regions(std::vector<PixelSet> regions) { regions_ = std::move(regions); }
    const std::vector<PixelSet>& regions() const { return regions_; }

    // A pass, the next one: begin_pass, then any number of additions from any thread, then
    // end_pass.
    void begin_pass(const Wavelengths& wavelengths);
    // Adds the contribution of one walk, `throughput` in cd/m² per unit of the group's spectrum.
    // `half`: 0 or 1 for a light walk, the half of the pass's light walks that it belongs to.
    static constexpr int kNoHalf = -1;
    void add(int x, int y, int group, const Spectrum& throughput, int half = kNoHalf);
    void add(int pixel, int group, const Spectrum& throughput) {
        add(pixel % width_, pixel / width_, group, throughput);
    }
    // A splat for `groups` groups from `first_group` on. Part k of run i has the weights
    // `weights[i * throughputs.size() + k]` and the throughput `throughputs[k]`.
    struct Splat {
        std::span<const PixelRun> runs;
        std::span<const RunWeights> weights;
        int first_group = 0;
        int groups = 1;
        std::span<const Spectrum> throughputs;
        int half = 0;  // of the pass's light walks
    };
    void add_spread(const Splat& splat);
    // Prefetches the memory of a run for add() and add_spread().
    void fetch(const PixelRun& run, int first_group, int groups) const {
        for (int g = first_group; g < first_group + groups; ++g) {
            pass_.fetch(run, g);
        }
    }
    // As add(), for a pixel to which no other thread adds at the same time.
    void add_alone(int x, int y, int group, const Spectrum& throughput);
    // The same in two steps. The first counts what is not finite, and returns nothing.
    std::optional<Xyz> in_xyz(int group, const Spectrum& throughput);
    void add_alone(int x, int y, int group, const Xyz& luminance);
    void end_pass();
    // Counts what the walks of a pass that has ended did.
    void add_counts(uint64_t rays, uint64_t nonfinite) {
        state_.rays += rays;
        state_.nonfinite += nonfinite;
    }
    // In place of end_pass: leaves the film as it was before begin_pass.
    void drop_pass();
    // After the first pass: pixel i takes the sums of pixel `from[i]`. That pixel keeps its own.
    void fill_pixels(const std::vector<int32_t>& from);

    // Mean over passes, with the ratio correction. Y in cd/m².
    Xyz resolve(int pixel, int group) const;
    Xyz resolve(int pixel) const;  // all groups
    // Standard error of the mean luminance, from the spread over passes; 0 for one pass.
    double luminance_stderr(int pixel) const;
    // What the state keeps by pixel, in cd/m².
    double in_cd_m2(int64_t quanta) const { return static_cast<double>(quanta) * quantum_; }

    struct MeanAndError {
        double mean = 0;
        double stderr_of_mean = 0;
    };
    // Luminance of all passes but the pixel's brightest one, cd/m²; 0 for one pass.
    MeanAndError without_brightest_pass(int pixel) const;
    MeanAndError region_luminance(size_t region) const;  // from the means of each pass
    MeanAndError frame_luminance() const;
    // The same, apart for each light group.
    GroupMeans region_means(size_t region) const;
    GroupMeans frame_means() const;

    // The integer sums, with what the present pass has added so far. For tests of equality.
    FilmSums sums() const;

    // Valid between passes.
    const FilmState& state() const { return state_; }
    // Continues from a saved state. Returns false if it is of another frame, groups or regions.
    bool restore(FilmState state);

  private:
    using ExactQuanta = std::array<double, 3>;  // XYZ, not yet rounded
    struct PartQuanta;

    size_t plane(int group, size_t channel) const {
        return (3 * static_cast<size_t>(group) + channel) * static_cast<size_t>(pixels());
    }
    std::optional<ExactQuanta> in_quanta(int group, const Spectrum& throughput);
    std::optional<PartQuanta> in_quanta(int group, std::span<const Spectrum> throughputs);
    void add_alone(int x, int y, int group, const ExactQuanta& quanta);
    void add_large(const RunQuanta& quanta, const PixelRun& run, int group);
    void add_band(size_t band, FilmSums& sums) const;
    int64_t luminance_quanta(int pixel) const;  // of all passes
    MeanAndError mean_of_squares(int64_t n, int64_t sum, SquareSum squares) const;
    std::vector<double> take_pass(int64_t number);
    void take_band(size_t band, int64_t number, std::vector<double>& sums);
    void take_pixel(int pixel, int64_t number, const PixelQuanta& xyz);
    Xyz pass_correction(size_t group) const;
    // Adds a group's luminance of the pixels from `first` on to the sums that take_pass returns.
    void add_to_regions(size_t group,
                        int first,
                        std::span<const double> luminance,
                        std::vector<double>& sums) const;
    void keep_means(const std::vector<double>& sums, size_t row);

    int width_;
    int height_;
    std::vector<LightGroup> groups_;
    double quantum_;
    FilmState state_;
    int64_t first_pass_ = 0;
    uint64_t nonfinite_before_ = 0;  // the present pass
    PassSums pass_;
    HalfSums halves_;  // of this pass
    BandLocks locks_;
    std::vector<GroupColour> colours_;  // of this pass
    std::vector<Xyz> exact_xyz_;        // per group
    std::vector<PixelSet> regions_;
};

}  // namespace dapple
