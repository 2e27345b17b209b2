#include "page/page_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/parallel.h"
#include "develop/develop.h"
#include "develop/exposure.h"
#include "develop/pair_meters.h"
#include "film/printed_error.h"
#include "judge/key_and_fill.h"
#include "page/fixture_controls.h"
#include "page/html_text.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

constexpr double kMidGrey = 0.18;  // of white (exposure.h)

// Seven digits are more than a float has; shorter numbers make a smaller page.
Json short_number(double value) {
    if (!std::isfinite(value)) return nullptr;
    char text[32];
    std::snprintf(text, sizeof text, "%.7g", value);
    return std::stod(text);
}

// Row by row.
Json matrix_json(const DMat3& m) {
    Json json = Json::array();
    for (int row = 0; row < 3; ++row) {
        for (int column = 0; column < 3; ++column) json.push_back(short_number(m[column][row]));
    }
    return json;
}

const char* word_of(FixtureControl::Kind kind) {
    switch (kind) {
        case FixtureControl::Kind::kLed:
            return "led";
        case FixtureControl::Kind::kWarming:
            return "warming";
        case FixtureControl::Kind::kDark:
            return "dark";
        default:
            return "plain";
    }
}

Json control_json(const FilmRecord& film, size_t f) {
    const FixtureControl control = make_fixture_control(film, f);
    const Fixture& fixture = film.fixtures[f];
    Json entries = Json::array();
    for (const ControlEntry& entry : control.entries) {
        Json matrices = Json::array();
        for (const DMat3& m : entry.matrices) matrices.push_back(matrix_json(m));
        entries.push_back(
            {{"at", short_number(entry.at)}, {"k", std::round(entry.cct_k)}, {"m", matrices}});
    }
    return {{"name", fixture.name},
            {"kind", word_of(control.kind)},
            {"window", fixture.is_window},
            {"dimmer", short_number(fixture.dimmer)},
            {"k", std::round(fixture.cct_k)},
            {"layers", control.layers},
            {"entries", entries}};
}

// Widened, so that the root of a sum of them is the ± to print (E114).
Json covariances_json(const GroupMeans& means, int passes) {
    const auto widening = printed_error(1.0, passes);
    if (means.covariances.empty() || !widening) return nullptr;
    const double square = *widening * *widening;
    Json lower = Json::array();
    for (size_t g = 0; g < means.groups(); ++g) {
        for (size_t h = 0; h <= g; ++h) {
            lower.push_back(std::stod([&] {
                char text[32];
                std::snprintf(
                    text, sizeof text, "%.3g", square * means.covariances[g * means.groups() + h]);
                return std::string(text);
            }()));
        }
    }
    return lower;
}

// A light of each layer as colours of the picture, which the page's matrices change.
template <class ColourOf>
Json spot_json(const std::string& name,
               const GroupMeans& means,
               double log_zero,
               int passes,
               const ColourOf& colour_of) {
    Json colours = Json::array();
    for (size_t g = 0; g < means.groups(); ++g) {
        const Xyz c = colour_of(g);
        colours.push_back({short_number(c.x), short_number(c.y), short_number(c.z)});
    }
    return {{"name", name},
            {"zero", log_zero},
            {"rgb", colours},
            {"covariances", covariances_json(means, passes)}};
}

Json meter_json(const FilmRecord& film, const MeterRecord& m) {
    const Camera& c = film.camera;
    const bool is_dome = m.meter.receptor == ReceptorKind::kDome;
    const double lux = metered_illuminance(c.f_number, c.shutter, c.iso) *
                       (is_dome ? kDomeCalibration / kIncidentCalibration : 1);
    const DMat3 develop = develop_matrix(c);
    return spot_json(m.meter.name, m.lux, std::log2(lux), film.run.passes, [&](size_t g) {
        return develop * m.xyz[g];
    });
}

Json region_json(const FilmRecord& film, const RegionRecord& r) {
    return spot_json(r.region.name,
                     r.luminance,
                     std::log2(kMidGrey * white_luminance(film.camera)),
                     film.run.passes,
                     [&](size_t g) {
                         Xyz sum(0);
                         for (const int32_t i : r.pixels) {
                             sum += Xyz(film.layers[g].light[static_cast<size_t>(i)]);
                         }
                         return sum / static_cast<double>(std::max<size_t>(1, r.pixels.size()));
                     });
}

// Key and fill as `judge` takes them, with the meters that show them; null if one of the two is no
// fixture or several.
Json ratio_json(const FilmRecord& film) {
    const KeyAndFill lights = find_key_and_fill(film, find_figure(film));
    const std::vector<int>& key = lights.key.fixtures;
    const std::vector<int>& fill = lights.fill.fixtures;
    if (key.size() != 1 || fill.size() != 1 || key == fill) return nullptr;
    const MeterPair pair = pair_meters(film, metered_key(key), metered_fill(fill));
    if (pair.first < 0) return nullptr;
    return {{"fixtures", {key.front(), fill.front()}}, {"meters", {pair.first, pair.second}}};
}

}  // namespace

std::string page_json_text(const FilmRecord& film, const PageFrame& frame) {
    std::vector<Json> fixtures(film.fixtures.size());
    parallel_blocks(static_cast<int64_t>(fixtures.size()), 1, [&](int64_t f, int64_t) {
        fixtures[static_cast<size_t>(f)] = control_json(film, static_cast<size_t>(f));
    });
    Json layers = Json::array();
    for (const PageLayer& layer : frame.layers) {
        layers.push_back({{"full", short_number(layer.code.full)},
                          {"steps", layer.code.steps},
                          {"red", layer.red},
                          {"blue", layer.blue},
                          {"bytes", layer.bytes}});
    }
    Json meters = Json::array();
    for (const MeterRecord& m : film.meters) meters.push_back(meter_json(film, m));
    Json regions = Json::array();
    for (const RegionRecord& r : film.regions) {
        if (!r.pixels.empty()) regions.push_back(region_json(film, r));
    }
    const DMat3 undo = glm::inverse(develop_matrix(film.camera));
    const Xyz luminance = glm::transpose(undo)[1];
    const Json json = {
        {"name", frame.name},
        {"title", film.title},
        {"width", frame.width},
        {"height", frame.height},
        {"passes", film.run.passes},
        {"f_number", short_number(film.camera.f_number)},
        {"shutter_s", short_number(film.camera.shutter)},
        {"iso", short_number(film.camera.iso)},
        {"white_k", short_number(film.camera.white_k)},
        {"log_grey", std::log2(kMidGrey * white_luminance(film.camera))},
        {"luminance",
         {short_number(luminance.x), short_number(luminance.y), short_number(luminance.z)}},
        {"layers", layers},
        {"fixtures", fixtures},
        {"meters", meters},
        {"regions", regions},
        {"ratio", ratio_json(film)}};
    return in_script(json.dump(-1, ' ', false, Json::error_handler_t::replace));
}

}  // namespace dapple
