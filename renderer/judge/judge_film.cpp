#include "judge/judge_film.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "develop/exposure.h"
#include "judge/fixture_light.h"
#include "judge/pattern_through.h"
#include "judge/region_cut.h"
#include "judge/surface_edges.h"
#include "judge/uniformity.h"

namespace dapple {

namespace {

// The pixels of the picture, and of lamps' faces.
struct PictureParts {
    std::vector<char> lamp_faces;  // by pixel
    std::vector<char> edges;       // by pixel: lamps' faces, and edges of things
    std::vector<int32_t> pixels;   // all others
    int faces = 0;
};

PictureParts find_parts(const FilmRecord& record) {
    PictureParts parts;
    parts.lamp_faces.assign(static_cast<size_t>(record.pixels()), 0);
    for (size_t i = 0; i < record.first_hits.lamp.size(); ++i) {
        parts.lamp_faces[i] = record.first_hits.lamp[i] >= 0 ? 1 : 0;
    }
    parts.edges = find_surface_edges(record);
    for (size_t i = 0; i < parts.edges.size(); ++i) parts.edges[i] |= parts.lamp_faces[i];
    for (int32_t i = 0; i < record.pixels(); ++i) {
        if (!parts.lamp_faces[static_cast<size_t>(i)]) parts.pixels.push_back(i);
    }
    parts.faces = record.pixels() - static_cast<int>(parts.pixels.size());
    return parts;
}

std::vector<FixtureShare> judge_fixtures(const FilmRecord& record, const PictureParts& parts) {
    std::vector<FixtureShare> fixtures;
    for (const Fixture& fixture : record.fixtures) fixtures.push_back({fixture.name, 0, 0});
    const std::vector<double> means =
        parts.faces > 0 ? mean_luminance(record, parts.pixels) : record.frame.means;
    const double total = std::accumulate(means.begin(), means.end(), 0.0);
    for (size_t g = 0; g < record.layers.size(); ++g) {
        const LightLayer& layer = record.layers[g];
        const auto fixture = static_cast<size_t>(layer.fixture);
        if (layer.fixture >= 0 && fixture < record.fixtures.size()) {
            fixtures[fixture].mean_luminance += means[g];
        } else {
            fixtures.push_back({layer.name, 0, means[g]});  // light of no fixture
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

Pattern judge_pattern(const FilmRecord& record,
                      const std::vector<int32_t>& pixels,
                      const std::vector<char>& edges) {
    const RegionImage region = cut_out(record, pixels, edges);
    if (record.lit_through.empty()) return measure_pattern(region);
    std::vector<char> left_out = edges;
    for (size_t i = 0; i < left_out.size(); ++i) {
        if (!record.lit_through[i]) left_out[i] = 1;
    }
    return measure_pattern_through(region, cut_out(record, pixels, left_out));
}

RegionJudgement judge_part(const FilmRecord& record,
                           const std::string& name,
                           const std::vector<int32_t>& pixels,
                           const PictureParts& parts) {
    RegionJudgement result;
    result.name = name;
    const RegionImage image = cut_out(record, pixels, parts.lamp_faces);
    result.pixels = static_cast<int>(std::count(image.inside.begin(), image.inside.end(), 1));
    if (result.pixels == 0) {
        const Measure none = Measure::unknown(pixels.empty() ? kNoPixels : "only a lamp's face");
        result.mean_luminance = result.uniformity = none;
        result.pattern = {none, none, none, none, 0};
        result.tones = {none, none};
        return result;
    }
    result.mean_luminance = mean_luminance(image);
    result.uniformity = measure_uniformity(image);
    result.pattern = judge_pattern(record, pixels, parts.edges);
    result.tones = measure_tones(image, white_luminance(record.camera));
    return result;
}

RegionJudgement judge_region(const FilmRecord& record,
                             const RegionRecord& region,
                             const PictureParts& parts) {
    RegionJudgement result = judge_part(record, region.region.name, region.pixels, parts);
    // Where no pixel was left out, the passes' own means give the better error.
    const auto error = region.luminance.stderr_of_sum();
    const bool all = static_cast<size_t>(result.pixels) == region.pixels.size();
    if (result.mean_luminance && all && error) {
        result.mean_luminance.error = *error;
        result.mean_luminance.passes = record.run.passes;
    }
    return result;
}

void judge_frame(const FilmRecord& record, const PictureParts& parts, FilmStatistics& statistics) {
    std::vector<double> luminance;
    for (const int32_t i : parts.pixels) {
        luminance.push_back(static_cast<double>(record.luminance[static_cast<size_t>(i)]));
    }
    const RegionImage picture = cut_frame(record, parts.lamp_faces);
    statistics.luminance = make_luminance_statistics(luminance);
    statistics.luminance.mean_stderr =
        parts.faces > 0 ? mean_luminance(picture).error : record.frame.stderr_of_sum();
    statistics.stops = make_stops_statistics(luminance, statistics.white_luminance);
    statistics.tones = measure_tones(picture, statistics.white_luminance);
    statistics.lamp_faces.pixels = parts.faces;
    const double all = std::accumulate(record.luminance.begin(), record.luminance.end(), 0.0);
    const double seen = std::accumulate(luminance.begin(), luminance.end(), 0.0);
    statistics.lamp_faces.share = all > 0 ? std::max(0.0, 1 - seen / all) : 0;
}

std::optional<double> left_out_of_clean(const FilmRecord& record) {
    const double all = std::accumulate(record.luminance.begin(), record.luminance.end(), 0.0);
    if (record.clean.empty() || all <= 0) return {};
    const LuminanceRow luminance(record.camera);
    double shown = 0;
    for (const Rgb& colour : record.clean) shown += luminance.of(colour);
    return std::max(0.0, 1 - shown / all);
}

void judge_figure(const FilmRecord& record, const PictureParts& parts, FilmStatistics& statistics) {
    const Figure figure = find_figure(record);
    const KeyAndFill lights = find_key_and_fill(record, figure);
    const FigureSides& sides = lights.sides;
    statistics.key = names_of(record, lights.key);
    statistics.fill = names_of(record, lights.fill);
    statistics.no_sides = sides.why;
    if (!sides.lit.empty()) {
        statistics.sides.push_back(judge_part(record, "figure, lit side", sides.lit, parts));
        statistics.sides.push_back(judge_part(record, "figure, shadow side", sides.shadow, parts));
    }
    statistics.ratios = measure_ratios(record, lights);
    statistics.hot_spots = find_hot_spots(record, parts.lamp_faces, figure.pixels, sides.lit);
}

}  // namespace

Measure FilmStatistics::stops_of(const MeterJudgement& meter) const {
    if (!(meter.lux > 0)) return Measure::unknown("no light");
    Measure measure = Measure::known(
        meter.stops_from_camera, meter.lux_stderr / (meter.lux * std::log(2.0)), passes);
    if (!noise_known) measure.error.reset();
    return measure;
}

FilmStatistics judge_film(const FilmRecord& record) {
    const PictureParts parts = find_parts(record);
    FilmStatistics statistics;
    statistics.white_luminance = white_luminance(record.camera);
    statistics.noise_known = record.noise_known();
    statistics.passes = record.run.passes;
    judge_frame(record, parts, statistics);
    statistics.left_out_of_clean = left_out_of_clean(record);
    statistics.fixtures = judge_fixtures(record, parts);
    statistics.meters = judge_readings(record);
    for (const RegionRecord& region : record.regions) {
        statistics.regions.push_back(judge_region(record, region, parts));
    }
    judge_figure(record, parts, statistics);
    statistics.glare = judge_glare(record, parts.lamp_faces);
    return statistics;
}

}  // namespace dapple
