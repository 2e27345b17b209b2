#include "film/meter_film.h"

#include <algorithm>

namespace dapple {

MeterFilm::MeterFilm(int meters,
                     int fixtures,
                     const std::vector<LightGroup>& groups,
                     double quantum)
    : meters_(meters), fixtures_(fixtures), film_(fixtures, meters, groups, quantum) {
    std::vector<PixelSet> rows;
    for (int m = 0; m < meters; ++m) {
        PixelSet row;
        for (int f = 0; f < fixtures; ++f) row.pixels.push_back(pixel(m, f));
        rows.push_back(std::move(row));
    }
    film_.set_regions(std::move(rows));
}

void MeterFilm::add(int meter, int fixture, const Spectrum& lux) {
    for (size_t g = 0; g < film_.groups().size(); ++g) {
        if (film_.groups()[g].fixture != fixture) continue;
        film_.add(pixel(meter, fixture), static_cast<int>(g), lux);
    }
}

Reading MeterFilm::reading(int meter) const {
    Reading reading;
    for (int f = 0; f < fixtures_; ++f) {
        const int i = pixel(meter, f);
        const FixtureReading part{film_.resolve(i).y, film_.luminance_stderr(i)};
        reading.by_fixture.push_back(part);
        reading.lux += part.lux;
    }
    // The region of a meter is the mean over the fixtures; the reading is their sum.
    const auto row = film_.region_luminance(static_cast<size_t>(meter));
    reading.lux_stderr = row.stderr_of_mean * fixtures_;
    return reading;
}

std::vector<Xyz> MeterFilm::group_xyz(int meter) const {
    std::vector<Xyz> result;
    for (size_t g = 0; g < film_.groups().size(); ++g) {
        const int fixture = film_.groups()[g].fixture;
        result.push_back(film_.resolve(pixel(meter, fixture), static_cast<int>(g)));
    }
    return result;
}

GroupMeans MeterFilm::group_lux(int meter) const {
    GroupMeans lux = film_.region_means(static_cast<size_t>(meter));
    lux.scale(std::vector<double>(lux.groups(), fixtures_));  // of the row's mean over fixtures
    const std::vector<Xyz> xyz = group_xyz(meter);
    for (size_t g = 0; g < xyz.size(); ++g) lux.means[g] = xyz[g].y;
    return lux;
}

double MeterFilm::worst_noise_percent() const {
    double worst = 0;
    for (int m = 0; m < meters_; ++m) {
        const Reading r = reading(m);
        if (r.lux > 0) worst = std::max(worst, 100 * r.lux_stderr / r.lux);
    }
    return worst;
}

}  // namespace dapple
