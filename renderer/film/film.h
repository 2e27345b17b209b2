// What passes add up to: per pixel and light group CIE XYZ, Y in cd/m².
//
// Sums are integers (fixed point), so that any order of adding gives the same bits. One layer is
// one light group: a fixture, or the warm or cool channel of one. Beside the layers stands the
// luminance of each finished pass, all groups together, from which the standard error over passes
// is made (E56).
//
// Colour: a walk carries throughput at the pass's wavelengths; the group's `GroupColour` of the
// pass turns it into XYZ (E54). The few wavelengths drawn so far would tint a young film, so each
// layer is corrected by the ratio of its source's exact XYZ to the XYZ that those wavelengths give
// it: a ratio estimator, consistent (Cochran 1977, chapter 6) (E55).
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "film/pass_sums.h"
#include "math/vec.h"
#include "spectrum/curve.h"
#include "spectrum/wavelengths.h"

namespace dapple {

struct LightGroup {
    std::string name;  // "key", "net.warm", "net.cool"
    Curve spectrum;    // per lumen of the group's share: 683 ∫ S V dλ = share
    int fixture = 0;
};

// Weights that turn throughput at the pass's wavelengths into XYZ.
struct GroupColour {
    Spectrum x, y, z;
    float luminance_ratio = 1;  // exact Y over the Y of this pass's wavelengths
};

GroupColour make_group_colour(const LightGroup& group, const Wavelengths& wavelengths);

// Sums over a set of pixels of one pass, kept so that a region has an honest standard error.
struct PixelSet {
    std::string name;
    std::vector<int32_t> pixels;
};

// All that a film has summed so far; what a checkpoint keeps.
struct FilmState {
    int64_t passes = 0;
    uint64_t nonfinite = 0;
    FilmSums sums;  // [group][xyz][pixel]
    std::vector<double> luminance_sums;
    std::vector<double> luminance_squares;
    std::vector<double> drawn_xyz;                   // [group][xyz], summed over passes
    std::vector<double> frame_passes;                // mean luminance of each pass
    std::vector<std::vector<double>> region_passes;  // [region][pass]
};

class Film {
  public:
    // `quantum`: cd/m² that one unit of the integer sums stands for (a power of two).
    Film(int width, int height, std::vector<LightGroup> groups, double quantum);

    int width() const { return width_; }
    int height() const { return height_; }
    int pixels() const { return width_ * height_; }
    const std::vector<LightGroup>& groups() const { return groups_; }
    // Memory of one light group.
    size_t bytes_per_group() const {
        return (state_.sums.size() * sizeof(int64_t) + pass_.bytes()) / groups_.size();
    }
    int passes() const { return static_cast<int>(state_.passes); }
    uint64_t nonfinite_samples() const { return state_.nonfinite; }

    void set_regions(std::vector<PixelSet> regions) { regions_ = std::move(regions); }
    const std::vector<PixelSet>& regions() const { return regions_; }

    // A pass: begin, then any number of add from any thread, then end.
    void begin_pass(const Wavelengths& wavelengths);
    // Adds the contribution of one walk, `throughput` in cd/m² per unit of the group's spectrum.
    void add(int x, int y, int group, const Spectrum& throughput);
    void add(int pixel, int group, const Spectrum& throughput) {
        add(pixel % width_, pixel / width_, group, throughput);
    }
    // Adds a splat to `groups` groups from `first_group` on. Part k of run i has the weights
    // `weights[i * throughputs.size() + k]` and the throughput `throughputs[k]`.
    void add_spread(std::span<const PixelRun> runs,
                    std::span<const RunWeights> weights,
                    int first_group,
                    int groups,
                    std::span<const Spectrum> throughputs);
    // Prefetches the memory of a run for add() and add_spread().
    void fetch(const PixelRun& run, int first_group, int groups) const {
        for (int g = first_group; g < first_group + groups; ++g) {
            pass_.fetch(run, g);
        }
    }
    // The same for a pixel that no other thread adds to meanwhile.
    void add_alone(int x, int y, int group, const Spectrum& throughput);
    void end_pass();

    // Mean over passes, with the ratio correction. Y in cd/m².
    Xyz resolve(int pixel, int group) const;
    Xyz resolve(int pixel) const;  // all groups
    // Mean luminance over passes and its standard error from their spread; 0 for one pass.
    double luminance_stderr(int pixel) const;

    struct MeanAndError {
        double mean = 0;
        double stderr_of_mean = 0;
    };
    MeanAndError region_luminance(size_t region) const;  // from the per-pass sums
    MeanAndError frame_luminance() const;

    // The integer sums themselves, what a pass has added so far with them, for tests of equality.
    FilmSums sums() const;

    // Between passes.
    const FilmState& state() const { return state_; }
    // Goes on from a saved state of the same frame, groups and regions; false if it is of another.
    bool restore(FilmState state);

  private:
    int width_;
    int height_;
    std::vector<LightGroup> groups_;
    double quantum_;
    FilmState state_;
    struct alignas(64) BandLock {
        bool held = false;
    };
    class BandGuard;
    using Quanta = std::array<double, 3>;  // XYZ
    size_t plane(int group, size_t channel) const {
        return (3 * static_cast<size_t>(group) + channel) * static_cast<size_t>(pixels());
    }
    std::vector<double> take_pass();
    void add_band(size_t band, FilmSums& sums) const;
    bool in_quanta(int group, const Spectrum& throughput, Quanta& quanta);
    void add_large(const RunQuanta& quanta, const PixelRun& run, int group);

    PassSums pass_;
    std::vector<BandLock> locks_;
    std::vector<GroupColour> colours_;  // this pass
    std::vector<Xyz> exact_xyz_;        // per group
    std::vector<PixelSet> regions_;
};

}  // namespace dapple
