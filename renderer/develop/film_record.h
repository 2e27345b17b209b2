// A film as its EXR keeps it: everything that is judged, rebalanced or shown, without the set file.
//
// `make_film_record` takes it from a film that was just rendered, output/read_exr from a file. So
// judging a render and judging a file are the same code. Values are 32-bit floats, as in the file;
// the clean layers have the precision of the file's 16 bits.
//
// Colours are linear Rec.709 in exposure units, white balanced (develop.h). All pixels are rows
// from the top, one entry per pixel; a list that is empty was not made.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "clean/clean_film.h"
#include "develop/glare_frame.h"
#include "develop/run_report.h"
#include "film/film.h"
#include "film/first_hits.h"
#include "film/meter_film.h"
#include "film/seen_points.h"
#include "scene/in_frame.h"
#include "scene/lamp_place.h"
#include "scene/scene.h"

namespace dapple {

// The light of one light group.
struct LightLayer {
    std::string layer;            // its name in the EXR
    std::string name;             // "key", "net.warm"
    int fixture = 0;              // index into FilmRecord::fixtures; -1: light of no fixture
    std::vector<Rgb> light;       // as measured
    std::vector<Rgb> clean;       // empty: only the clean frame of all light is there
    std::vector<Rgb> glare = {};  // what the lens adds and takes; empty: it is not asked for
};

struct RegionRecord {
    Region region;
    std::vector<int32_t> pixels;  // ascending
    GroupMeans luminance;         // cd/m²
};

// What a meter has read.
struct MeterRecord {
    Meter meter;
    std::vector<Xyz> xyz;  // by light group, Y in lx
    GroupMeans lux;
};

struct FilmRecord {
    std::string title;
    Camera camera;
    RunReport run;
    // Of each, the name and what decides the strength and colour of its light: source, cct_k, duv,
    // dimmer, dimmer_warms, gel, is_window.
    std::vector<Fixture> fixtures;
    std::vector<LampPlace> lamp_places;  // by fixture; empty: not known
    std::vector<std::string> surfaces;   // names; FirstHits::surface is an index into them
    std::vector<LightLayer> layers;      // by light group
    std::vector<Rgb> light;              // all layers together
    std::vector<Rgb> clean;
    // What the lens adds to `light` or `clean`, all layers together. Below 0 where it takes light.
    // Nothing but the picture and what is said about glare includes it.
    std::vector<Rgb> glare;
    GlareReport glare_report;
    std::vector<float> luminance;         // cd/m², as measured, before white balance
    std::vector<float> luminance_stderr;  // cd/m²; 0 after a single pass
    std::vector<float> clean_stderr;      // cd/m², estimated
    std::vector<float> noise;             // cd/m²: no signal, and the noise of `luminance` (E132)
    FirstHits first_hits;
    GroupMeans frame;                   // mean luminance over the frame, cd/m²
    std::vector<RegionRecord> regions;  // in the set's order
    std::vector<MeterRecord> meters;
    InFrame in_frame;  // without a width: not looked for
    // By pixel: 1 if it is lit through the thing that a search tries places for. Texture, patches
    // and cover are then those of these pixels (judge/pattern_through.h). Empty: of all.
    std::vector<char> lit_through;

    int width() const { return camera.width; }
    int height() const { return camera.height; }
    int pixels() const { return camera.width * camera.height; }
    // After a single pass, errors are not known.
    bool noise_known() const { return !frame.covariances.empty(); }
    bool has_glare() const { return !glare.empty(); }
};

// What a render has made.
struct FilmParts {
    const Scene& scene;
    const Film& film;
    const FirstHits& first_hits;
    const MeterFilm* meters = nullptr;
    const SeenPoints* seen = nullptr;   // for `noise`
    const CleanFrame* clean = nullptr;  // with or without its layers
    const GlareFrame* glare = nullptr;
    const InFrame* in_frame = nullptr;
    RunReport run = {};
    std::vector<LampPlace> lamp_places = {};
};

FilmRecord make_film_record(const FilmParts& parts);

// The picture, linear: the clean frame if there is one, else the film as measured, with what the
// lens adds. `raw`: always the film as measured.
std::vector<Rgb> shown_light(const FilmRecord& record, bool raw = false);
// A light group's part of it.
std::vector<Rgb> shown_light(const LightLayer& layer);

// The layer name of every light group: the fixture's name, in which any character but letters,
// digits, - and _ is replaced by _, then ".warm" or ".cool". A number makes names different from
// each other and from the other layers of the EXR.
std::vector<std::string> layer_names(const Film& film, const Scene& scene);

// Each group's mean luminance, cd/m², over the given pixels, or over the frame.
std::vector<double> mean_luminance(const FilmRecord& record, std::span<const int32_t> pixels);
std::vector<double> mean_luminance(const FilmRecord& record);

// What a meter reads, in total and of each fixture.
Reading reading_of(const FilmRecord& record, const MeterRecord& meter);

}  // namespace dapple
