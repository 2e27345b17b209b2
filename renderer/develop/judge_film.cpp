#include "develop/judge_film.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "develop/exposure.h"

namespace dapple {

namespace {

// Darker pixels count as 12 stops under white, the lower end of the histogram, in logarithms.
constexpr double kFloorOverWhite = 0x1p-12;

struct PixelValues {
    std::vector<double> luminance;  // cd/m²
    std::vector<double> variance;   // (cd/m²)²
};

PixelValues resolve_pixels(const Film& film) {
    const auto count = static_cast<size_t>(film.pixels());
    PixelValues values{std::vector<double>(count), std::vector<double>(count)};
    parallel_blocks(film.pixels(), 4096, [&](int64_t first, int64_t last) {
        for (auto i = static_cast<int>(first); i < static_cast<int>(last); ++i) {
            const double error = film.luminance_stderr(i);
            values.luminance[static_cast<size_t>(i)] = film.resolve(i).y;
            values.variance[static_cast<size_t>(i)] = error * error;
        }
    });
    return values;
}

double group_mean(const Film& film, int group) {
    double sum = 0;
    for (int i = 0; i < film.pixels(); ++i) sum += film.resolve(i, group).y;
    return sum / film.pixels();
}

std::vector<FixtureShare> judge_fixtures(const Film& film, const Scene& scene) {
    std::vector<FixtureShare> fixtures;
    for (const Fixture& fixture : scene.fixtures) fixtures.push_back({fixture.name, 0, 0});
    double total = 0;
    for (int g = 0; g < static_cast<int>(film.groups().size()); ++g) {
        const LightGroup& group = film.groups()[static_cast<size_t>(g)];
        const double mean = group_mean(film, g);
        total += mean;
        const auto fixture = static_cast<size_t>(group.fixture);
        if (group.fixture >= 0 && fixture < scene.fixtures.size()) {
            fixtures[fixture].mean_luminance += mean;
        } else {
            fixtures.push_back({group.name, 0, mean});  // light of no fixture
        }
    }
    for (FixtureShare& f : fixtures) f.share = total > 0 ? f.mean_luminance / total : 0;
    return fixtures;
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

RegionJudgement judge_region(const Film& film,
                             size_t region,
                             const PixelValues& values,
                             const FirstHits& first_hits,
                             double floor) {
    const PixelSet& set = film.regions()[region];
    RegionJudgement result;
    result.name = set.name;
    result.pixels = static_cast<int>(set.pixels.size());
    if (set.pixels.empty()) return result;
    double sum = 0;
    for (const int32_t pixel : set.pixels) sum += values.luminance[static_cast<size_t>(pixel)];
    result.mean_luminance = sum / result.pixels;
    result.mean_stderr = film.region_luminance(region).stderr_of_mean;
    RegionImage image = cut_out(set.pixels, film.width(), values);
    image.pixel_m = median_footprint(set.pixels, first_hits);
    image.floor = floor;
    image.noise_known = film.passes() > 1;
    result.uniformity = measure_uniformity(image);
    result.pattern = measure_pattern(image);
    return result;
}

}  // namespace

FilmStatistics judge_film(const Film& film,
                          const std::vector<Reading>& readings,
                          const Scene& scene,
                          const FirstHits& first_hits) {
    const PixelValues values = resolve_pixels(film);
    FilmStatistics statistics;
    statistics.white_luminance = white_luminance(scene.camera);
    statistics.luminance = make_luminance_statistics(values.luminance);
    statistics.luminance.mean_stderr = film.frame_luminance().stderr_of_mean;
    statistics.stops = make_stops_statistics(values.luminance, statistics.white_luminance);
    statistics.fixtures = judge_fixtures(film, scene);
    statistics.meters = judge_meters(readings, scene);
    const double floor = kFloorOverWhite * statistics.white_luminance;
    for (size_t r = 0; r < film.regions().size(); ++r) {
        statistics.regions.push_back(judge_region(film, r, values, first_hits, floor));
    }
    return statistics;
}

}  // namespace dapple
