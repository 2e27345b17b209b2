#include "develop/judge_film.h"

#include <algorithm>
#include <cmath>

#include "develop/exposure.h"

namespace dapple {

namespace {

// Darker pixels count as 12 stops under white, the lower end of the histogram, in logarithms.
constexpr double kFloorOverWhite = 0x1p-12;

struct PixelValues {
    std::vector<double> luminance;  // cd/m²
    std::vector<double> variance;   // (cd/m²)²
};

PixelValues resolve_pixels(const FilmRecord& record) {
    PixelValues values{{record.luminance.begin(), record.luminance.end()}, {}};
    for (const float error : record.luminance_stderr) {
        values.variance.push_back(static_cast<double>(error) * error);
    }
    return values;
}

std::vector<FixtureShare> judge_fixtures(const FilmRecord& record) {
    std::vector<FixtureShare> fixtures;
    for (const Fixture& fixture : record.fixtures) fixtures.push_back({fixture.name, 0, 0});
    const double total = record.frame.sum();
    for (size_t g = 0; g < record.layers.size(); ++g) {
        const LightLayer& layer = record.layers[g];
        const double mean = record.frame.means[g];
        const auto fixture = static_cast<size_t>(layer.fixture);
        if (layer.fixture >= 0 && fixture < record.fixtures.size()) {
            fixtures[fixture].mean_luminance += mean;
        } else {
            fixtures.push_back({layer.name, 0, mean});  // light of no fixture
        }
    }
    for (FixtureShare& f : fixtures) f.share = total > 0 ? f.mean_luminance / total : 0;
    return fixtures;
}

std::vector<MeterJudgement> judge_readings(const FilmRecord& record) {
    std::vector<Reading> readings;
    std::vector<Meter> meters;
    for (const MeterRecord& m : record.meters) {
        readings.push_back(reading_of(record, m));
        meters.push_back(m.meter);
    }
    return judge_meters(readings, meters, record.fixtures, record.camera);
}

double median_footprint(const std::vector<int32_t>& pixels, const FirstHits& first_hits) {
    std::vector<double> footprints;
    for (const int32_t pixel : pixels) {
        if (static_cast<size_t>(pixel) >= first_hits.footprint_m.size()) continue;
        const double f = first_hits.footprint_m[static_cast<size_t>(pixel)];
        if (f > 0 && std::isfinite(f)) footprints.push_back(f);
    }
    std::sort(footprints.begin(), footprints.end());
    return quantile(footprints, 0.5);
}

RegionImage cut_out(const std::vector<int32_t>& pixels, int frame_width, const PixelValues& from) {
    int x0 = frame_width;
    int x1 = 0;
    int y0 = pixels.front() / frame_width;
    int y1 = 0;
    for (const int32_t pixel : pixels) {
        x0 = std::min(x0, pixel % frame_width);
        x1 = std::max(x1, pixel % frame_width + 1);
        y0 = std::min(y0, pixel / frame_width);
        y1 = std::max(y1, pixel / frame_width + 1);
    }
    RegionImage image;
    image.width = x1 - x0;
    image.height = y1 - y0;
    const size_t count = static_cast<size_t>(image.width) * static_cast<size_t>(image.height);
    image.luminance.assign(count, 0.0);
    image.variance.assign(count, 0.0);
    image.inside.assign(count, 0);
    for (const int32_t pixel : pixels) {
        const size_t to = image.index(pixel % frame_width - x0, pixel / frame_width - y0);
        image.luminance[to] = from.luminance[static_cast<size_t>(pixel)];
        image.variance[to] = from.variance[static_cast<size_t>(pixel)];
        image.inside[to] = 1;
    }
    return image;
}

RegionJudgement judge_region(const FilmRecord& record,
                             const RegionRecord& region,
                             const PixelValues& values,
                             double floor) {
    RegionJudgement result;
    result.name = region.region.name;
    result.pixels = static_cast<int>(region.pixels.size());
    if (region.pixels.empty()) return result;
    double sum = 0;
    for (const int32_t pixel : region.pixels) sum += values.luminance[static_cast<size_t>(pixel)];
    result.mean_luminance = sum / result.pixels;
    result.mean_stderr = region.luminance.stderr_of_sum().value_or(0);
    RegionImage image = cut_out(region.pixels, record.width(), values);
    image.pixel_m = median_footprint(region.pixels, record.first_hits);
    image.floor = floor;
    image.noise_known = record.noise_known();
    result.uniformity = measure_uniformity(image);
    result.pattern = measure_pattern(image);
    return result;
}

}  // namespace

FilmStatistics judge_film(const FilmRecord& record) {
    const PixelValues values = resolve_pixels(record);
    FilmStatistics statistics;
    statistics.white_luminance = white_luminance(record.camera);
    statistics.luminance = make_luminance_statistics(values.luminance);
    statistics.luminance.mean_stderr = record.frame.stderr_of_sum().value_or(0);
    statistics.stops = make_stops_statistics(values.luminance, statistics.white_luminance);
    statistics.fixtures = judge_fixtures(record);
    statistics.meters = judge_readings(record);
    const double floor = kFloorOverWhite * statistics.white_luminance;
    for (const RegionRecord& region : record.regions) {
        statistics.regions.push_back(judge_region(record, region, values, floor));
    }
    return statistics;
}

}  // namespace dapple
