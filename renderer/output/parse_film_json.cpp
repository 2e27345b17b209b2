// The JSON of an EXR to a record. The library's exceptions for missing keys and wrong types, and
// our own for values that cannot be, become one FileError.
#include <cmath>

#include "base/problems.h"
#include "output/film_json.h"
#include "output/film_words.h"
#include "output/glare_json.h"
#include "output/in_frame_json.h"
#include "output/json_parts.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kMostPixelsAcross = 65536;

void require(bool right, const char* what) {
    if (!right) throw std::invalid_argument(what);
}

template <class Vector>
Vector parse_vector(const Json& json) {
    return {json.at(0).get<typename Vector::value_type>(),
            json.at(1).get<typename Vector::value_type>(),
            json.at(2).get<typename Vector::value_type>()};
}

Vec2 parse_pair(const Json& json) {
    return {json.at(0).get<float>(), json.at(1).get<float>()};
}

std::optional<double> parse_optional(const Json& json) {
    return json.is_null() ? std::nullopt : std::optional(json.get<double>());
}

Camera parse_camera(const Json& json) {
    Camera c;
    c.position = parse_vector<Point>(json.at("position"));
    c.frame = {parse_vector<Direction>(json.at("right")),
               parse_vector<Direction>(json.at("up")),
               parse_vector<Direction>(json.at("forward"))};
    c.focal_length = json.at("focal_length_m");
    c.sensor = parse_pair(json.at("sensor_m"));
    c.width = json.at("frame_px").at(0);
    c.height = json.at("frame_px").at(1);
    c.f_number = json.at("f_number");
    c.shutter = json.at("shutter_s");
    c.iso = json.at("iso");
    c.focus_distance = json.at("focus_m");
    c.white_k = json.at("white_k");
    require(c.width > 0 && c.height > 0 && c.width <= kMostPixelsAcross &&
                c.height <= kMostPixelsAcross,
            "the frame has no size");
    require(c.f_number > 0 && c.shutter > 0 && c.iso > 0 && c.white_k > 0,
            "the camera has no exposure");
    return c;
}

RunReport parse_run(const Json& json) {
    RunReport run;
    if (const auto set = json.find("set"); set != json.end() && set->is_string()) run.set = *set;
    run.passes = json.at("passes");
    run.seconds = parse_optional(json.at("seconds")).value_or(0);
    run.rays = json.at("rays");
    run.seed = json.at("seed");
    run.nonfinite_samples = json.at("nonfinite_samples");
    run.stopped_early = json.at("stopped_early");
    run.transport = json.at("transport");
    run.first_pass_share = json.at("first_pass_share");
    run.draft_width = json.at("draft_width_px");
    run.threads = json.at("threads");
    run.noise_percent = parse_optional(json.at("noise_percent"));
    run.clean_noise_percent = parse_optional(json.at("clean_noise_percent"));
    return run;
}

Gel parse_gel(const Json& json) {
    Gel gel;
    gel.shift_mired = json.at("shift_mired");
    gel.stops = json.at("stops");
    const Json& values = json.at("spectrum");
    if (values.is_null()) return gel;
    require(values.size() == Curve::kSize, "a gel's spectrum has the wrong length");
    gel.spectrum.emplace();
    for (int i = 0; i < Curve::kSize; ++i) {
        (*gel.spectrum)[i] = values.at(static_cast<size_t>(i)).get<float>();
    }
    return gel;
}

Fixture parse_fixture(const Json& json) {
    Fixture f;
    f.name = json.at("name");
    f.source = meaning_of(kSourceWords, json.at("source"));
    f.cct_k = json.at("cct_k");
    f.duv = json.at("duv");
    f.dimmer = json.at("dimmer");
    f.dimmer_warms = json.at("dimmer_warms");
    f.gel = parse_gel(json.at("gel"));
    f.is_window = json.at("is_window");
    require(f.cct_k > 0 && f.dimmer >= 0, "a fixture's light is impossible");
    return f;
}

GroupMeans parse_means(const Json& json, size_t groups) {
    GroupMeans means{json.at("means").get<std::vector<double>>(), {}};
    require(means.groups() == groups, "a list of means has the wrong length");
    const Json& lower = json.at("covariances");
    if (lower.is_null()) return means;
    require(lower.size() == groups * (groups + 1) / 2, "covariances have the wrong length");
    means.covariances.resize(groups * groups);
    size_t next = 0;
    for (size_t g = 0; g < groups; ++g) {
        for (size_t h = 0; h <= g; ++h) {
            const double value = parse_optional(lower.at(next++)).value_or(0);
            means.covariances[g * groups + h] = means.covariances[h * groups + g] = value;
        }
    }
    return means;
}

RegionRecord parse_region(const Json& json, size_t groups) {
    RegionRecord r;
    r.region.name = json.at("name");
    r.region.surface = json.at("surface");
    const Json& rect = json.at("rect_px");
    r.region.has_rect = !rect.is_null();
    if (r.region.has_rect) {
        r.region.rect = {rect.at(0).get<int>(),
                         rect.at(1).get<int>(),
                         rect.at(2).get<int>(),
                         rect.at(3).get<int>()};
    }
    r.luminance = parse_means(json.at("luminance"), groups);
    return r;
}

MeterRecord parse_meter(const Json& json, size_t groups) {
    MeterRecord m;
    m.meter.name = json.at("name");
    m.meter.receptor = meaning_of(kReceptorWords, json.at("receptor"));
    m.meter.position = parse_vector<Point>(json.at("position"));
    m.meter.facing = parse_vector<Direction>(json.at("facing"));
    m.meter.diameter = json.at("diameter_m");
    m.meter.size = parse_pair(json.at("size_m"));
    for (const Json& v : json.at("xyz")) m.xyz.push_back(parse_vector<Xyz>(v));
    m.lux = parse_means(json.at("lux"), groups);
    require(m.xyz.size() == groups, "a meter's light has the wrong length");
    return m;
}

FilmRecord parse_film(const Json& json) {
    FilmRecord record;
    record.title = json.at("title");
    record.camera = parse_camera(json.at("camera"));
    record.run = parse_run(json.at("run"));
    record.surfaces = json.at("surfaces").get<std::vector<std::string>>();
    for (const Json& f : json.at("fixtures")) record.fixtures.push_back(parse_fixture(f));
    // Films have no places if they were rendered before these were kept.
    if (json.contains("lamp_places")) {
        for (const Json& place : json.at("lamp_places")) {
            record.lamp_places.push_back({parse_vector<Point>(place.at("position")),
                                          place.at("passes").get<std::vector<std::string>>()});
        }
        require(record.lamp_places.empty() || record.lamp_places.size() == record.fixtures.size(),
                "a fixture has no place");
    }
    for (const Json& l : json.at("layers")) {
        record.layers.push_back({l.at("layer"), l.at("name"), l.at("fixture"), {}, {}});
        const int fixture = record.layers.back().fixture;
        require(fixture >= -1 && fixture < static_cast<int>(record.fixtures.size()),
                "a layer has no fixture");
    }
    const size_t groups = record.layers.size();
    record.frame = parse_means(json.at("frame"), groups);
    for (const Json& r : json.at("regions")) record.regions.push_back(parse_region(r, groups));
    for (const Json& m : json.at("meters")) record.meters.push_back(parse_meter(m, groups));
    record.in_frame = parse_in_frame(json.at("in_frame"), record.width(), record.height());
    if (json.contains("glare")) record.glare_report = parse_glare_report(json.at("glare"));
    return record;
}

}  // namespace

FilmRecord parse_film_json(const std::string& path, const std::string& text) {
    try {
        const Json json = Json::parse(text);
        const int version = json.at("version");
        if (version != kFilmVersion) {
            throw FileError(path,
                            "is a film of version " + std::to_string(version) +
                                "; this dapple reads version " + std::to_string(kFilmVersion) +
                                "; render the set again");
        }
        return parse_film(json);
    } catch (const nlohmann::json::exception&) {
        throw FileError(path, "is damaged: its film cannot be read; render the set again");
    } catch (const std::invalid_argument& error) {
        throw FileError(path, std::string("is damaged: ") + error.what());
    }
}

}  // namespace dapple
