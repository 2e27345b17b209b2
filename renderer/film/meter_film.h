// What the meters read, in lx: sums over passes per meter, fixture and light group.
//
// A MeterFilm is a Film with a column for each fixture and a row for each meter. So it has the same
// integer sums, colour correction and errors from the spread over passes.
#pragma once

#include <vector>

#include "film/film.h"

namespace dapple {

struct FixtureReading {
    double lux = 0;
    double lux_stderr = 0;
};

struct Reading {
    double lux = 0;
    double lux_stderr = 0;  // from the spread over passes; 0 for one pass
    std::vector<FixtureReading> by_fixture;
};

class MeterFilm {
  public:
    // `quantum`: lx of one unit of the integer sums, a power of two.
    MeterFilm(int meters, int fixtures, const std::vector<LightGroup>& groups, double quantum);

    int meters() const { return meters_; }
    int passes() const { return film_.passes(); }
    uint64_t nonfinite_samples() const { return film_.nonfinite_samples(); }

    void set_first_pass(int64_t first) { film_.set_first_pass(first); }
    void begin_pass(const Wavelengths& wavelengths) { film_.begin_pass(wavelengths); }
    // Adds the contribution of one walk, per unit of the fixture's group spectra; from any thread.
    void add(int meter, int fixture, const Spectrum& lux);
    void end_pass() { film_.end_pass(); }
    void drop_pass() { film_.drop_pass(); }

    Reading reading(int meter) const;
    // XYZ of the light of each group, Y in lx; and its luxes with their covariances.
    std::vector<Xyz> group_xyz(int meter) const;
    GroupMeans group_lux(int meter) const;
    // The largest relative standard error of all readings above 0, in per cent.
    double worst_noise_percent() const;

    const FilmState& state() const { return film_.state(); }
    bool restore(FilmState state) { return film_.restore(std::move(state)); }

  private:
    int pixel(int meter, int fixture) const { return meter * fixtures_ + fixture; }

    int meters_;
    int fixtures_;
    Film film_;
};

}  // namespace dapple
