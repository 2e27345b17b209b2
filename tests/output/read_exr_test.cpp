#include "output/read_exr.h"

#include <OpenImageIO/imageio.h>
#include <doctest/doctest.h>

#include <cmath>
#include <cstdio>

#include "base/problems.h"
#include "judge/judge_film.h"
#include "output/output_fixtures.h"
#include "output/round_layers.h"
#include "output/write_exr.h"
#include "output/write_stats.h"

using namespace dapple;

namespace {

// A record with everything that a record can have.
FilmRecord full_record(int passes = 5) {
    Scene scene = boat_scene();
    scene.title = "Boat \"shed\"\n";
    scene.fixtures[0].cct_k = 4100;
    scene.fixtures[0].duv = 0.002F;
    scene.fixtures[1].source = SourceKind::kTungsten;
    scene.fixtures[1].dimmer = 0.37F;
    scene.fixtures[1].gel.stops = 0.5;
    scene.fixtures[1].gel.spectrum = Curve(0.25F);
    scene.regions = {{"slip", 1, false, {}}, {"left", kNoMaterial, true, {0, 0, 9, 70}}};
    scene.meters.resize(2);
    scene.meters[0].name = "face";
    scene.meters[0].receptor = ReceptorKind::kDome;
    scene.meters[1].name = "wall";
    Film film = boat_film(0);
    const FirstHits hits = boat_hits();
    film.set_regions({{"slip", find_pixels(hits, 1, std::nullopt)},
                      {"left", find_pixels(hits, -1, glm::ivec4(0, 0, 9, 70))}});
    MeterFilm meters(2, 2, film.groups(), 0x1p-30);
    for (int pass = 0; pass < passes; ++pass) {
        const Wavelengths wavelengths = make_pass_wavelengths(1, static_cast<uint32_t>(pass));
        film.begin_pass(wavelengths);
        meters.begin_pass(wavelengths);
        for (int g = 0; g < 3; ++g) {
            for (int i = 0; i < film.pixels(); ++i) {
                film.add(i, g, Spectrum(0.01F * static_cast<float>(i + g * pass % 3 + 7)));
            }
        }
        for (int m = 0; m < 2; ++m) {
            meters.add(m, 0, Spectrum(static_cast<float>(20 + m + pass)));
            meters.add(m, 1, Spectrum(static_cast<float>(9 + pass * m)));
        }
        film.end_pass();
        meters.end_pass();
    }
    CleanFrame clean{film.width(), film.height(), {}, {}, {{}, {}, {}}};
    for (int i = 0; i < film.pixels(); ++i) {
        clean.total.push_back(film.resolve(i));
        clean.luminance_stderr.push_back(0.5F);
        for (int g = 0; g < 3; ++g) {
            clean.layers[static_cast<size_t>(g)].push_back(film.resolve(i, g));
        }
    }
    const SeenPoints seen{film.width(),
                          film.height(),
                          std::vector<SeenPoint>(static_cast<size_t>(film.pixels())),
                          {}};
    RunReport run;
    run.passes = passes;
    run.seed = 0xFFFFFFFFFFFFFFFFULL;
    run.rays = 12345678901ULL;
    return make_film_record({.scene = scene,
                             .film = film,
                             .first_hits = hits,
                             .meters = &meters,
                             .seen = &seen,
                             .clean = &clean,
                             .run = run,
                             .lamp_places = {{Point(1, 2, 3), {"jar", "cloth"}}, {}}});
}

std::string written(const TemporaryFolder& folder, const FilmRecord& record) {
    const std::string path = folder / "boat.exr";
    write_exr(path, record);
    return path;
}

// Copies an EXR with one attribute changed.
void change_film(const std::string& from, const std::string& to, const std::string& film) {
    auto input = OIIO::ImageInput::open(from);
    REQUIRE(input);
    OIIO::ImageSpec spec = input->spec();
    if (film.empty()) {
        spec.erase_attribute("dapple:film");
    } else {
        spec.attribute("dapple:film", film);
    }
    std::vector<char> pixels(spec.image_bytes(true));
    REQUIRE(input->read_image(0, 0, 0, spec.nchannels, OIIO::TypeDesc::UNKNOWN, pixels.data()));
    auto output = OIIO::ImageOutput::create("openexr");
    REQUIRE(output->open(to, spec));
    REQUIRE(output->write_image(OIIO::TypeDesc::UNKNOWN, pixels.data()));
    REQUIRE(output->close());
}

std::string film_of(const std::string& path) {
    return OIIO::ImageInput::open(path)->spec().get_string_attribute("dapple:film");
}

std::string replaced(std::string text, const std::string& what, const std::string& with) {
    const size_t at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), with);
}

// The largest error of a layer that was rounded, in steps of a half: 11 significant bits; below
// 2^-14 the step is 2^-24.
float largest_error(const std::vector<Rgb>& rounded, const std::vector<Rgb>& exact) {
    float largest = 0;
    for (size_t i = 0; i < exact.size(); ++i) {
        for (int c = 0; c < 3; ++c) {
            const float step = std::max(std::abs(exact[i][c]) * 0x1p-10F, 0x1p-24F);
            largest = std::max(largest, std::abs(rounded[i][c] - exact[i][c]) / step);
        }
    }
    return largest;
}

}  // namespace

TEST_CASE("a film read back is judged as the film that was rendered, to the letter") {
    const TemporaryFolder folder;
    FilmRecord record = full_record();
    round_layers(record);
    const FilmRecord again = read_exr(written(folder, record));
    CHECK(stats_json_text(judge_film(again), again) == stats_json_text(judge_film(record), record));
}

TEST_CASE("what is measured of all light comes back to the bit, layers as they were rounded") {
    const TemporaryFolder folder;
    const FilmRecord exact = full_record();
    FilmRecord record = exact;
    CHECK(round_layers(record).empty());
    const FilmRecord again = read_exr(written(folder, record));
    CHECK(again.light == exact.light);
    CHECK(again.clean == exact.clean);
    CHECK(again.luminance == exact.luminance);
    CHECK(again.luminance_stderr == exact.luminance_stderr);
    CHECK(again.noise == exact.noise);
    CHECK(again.first_hits.surface == exact.first_hits.surface);
    CHECK(again.first_hits.footprint_m == exact.first_hits.footprint_m);
    CHECK(again.first_hits.depth == exact.first_hits.depth);
    REQUIRE(again.layers.size() == 3);
    for (size_t g = 0; g < 3; ++g) {
        CHECK(again.layers[g].light == record.layers[g].light);
        CHECK(again.layers[g].clean == record.layers[g].clean);
        CHECK(largest_error(record.layers[g].light, exact.layers[g].light) <= 0.5F);
        CHECK(largest_error(record.layers[g].clean, exact.layers[g].clean) <= 0.5F);
    }
    CHECK(again.meters[0].xyz == exact.meters[0].xyz);
    CHECK(again.meters[1].lux.covariances == exact.meters[1].lux.covariances);
    CHECK(again.regions[1].pixels == exact.regions[1].pixels);
    CHECK(again.regions[0].luminance.covariances == exact.regions[0].luminance.covariances);
    CHECK(again.surfaces == exact.surfaces);
    CHECK(again.title == exact.title);
}

TEST_CASE("layers that were not rounded come back to the bit") {
    const TemporaryFolder folder;
    const FilmRecord record = full_record();
    const FilmRecord again = read_exr(written(folder, record));
    for (size_t g = 0; g < 3; ++g) {
        CHECK(again.layers[g].light == record.layers[g].light);
        CHECK(again.layers[g].clean == record.layers[g].clean);
    }
}

TEST_CASE("a layer brighter than a half can be keeps its 32 bits, and is named") {
    const TemporaryFolder folder;
    FilmRecord record = full_record();
    record.layers[1].light[5] = Rgb(1, 70000.5F, 3);
    const std::vector<Rgb> bright = record.layers[1].light;
    CHECK(round_layers(record) == std::vector<std::string>{record.layers[1].name});
    const FilmRecord again = read_exr(written(folder, record));
    CHECK(again.layers[1].light == bright);
    CHECK(again.layers[0].light == record.layers[0].light);
    CHECK(again.layers[0].light != full_record().layers[0].light);
}

TEST_CASE("glare is rounded as finely as the light that it is added to") {
    FilmRecord record = full_record();
    for (LightLayer& layer : record.layers) {
        layer.glare = layer.light;
        for (size_t i = 0; i < layer.glare.size(); ++i) {
            layer.glare[i] *= (i % 2 == 0 ? -0.01F : 30.0F) * (1 + 0.001F * static_cast<float>(i));
        }
    }
    const FilmRecord exact = record;
    CHECK(round_layers(record).empty());
    for (size_t g = 0; g < record.layers.size(); ++g) {
        const LightLayer& layer = record.layers[g];
        CHECK(are_halves(layer.glare));
        for (size_t i = 0; i < layer.glare.size(); ++i) {
            for (int c = 0; c < 3; ++c) {
                const float was = exact.layers[g].glare[i][c];
                const float larger = std::max(std::abs(was), std::abs(layer.light[i][c]));
                CHECK(std::abs(layer.glare[i][c] - was) <= 0x1p-11F * larger + 0x1p-25F);
            }
        }
    }
}

TEST_CASE("rounding moves the mean of a region by less than 0.025 %") {
    const FilmRecord exact = full_record();
    FilmRecord record = exact;
    round_layers(record);
    for (const RegionRecord& region : exact.regions) {
        const std::vector<double> was = mean_luminance(exact, region.pixels);
        const std::vector<double> is = mean_luminance(record, region.pixels);
        for (size_t g = 0; g < was.size(); ++g) {
            CHECK(std::abs(is[g] - was[g]) <= 0x1p-12 * std::abs(was[g]));
        }
    }
}

TEST_CASE("what decides a fixture's light comes back") {
    const TemporaryFolder folder;
    const FilmRecord again = read_exr(written(folder, full_record()));
    REQUIRE(again.fixtures.size() == 2);
    CHECK(again.fixtures[0].cct_k == 4100);
    CHECK(again.fixtures[0].duv == 0.002F);
    CHECK(again.fixtures[1].source == SourceKind::kTungsten);
    CHECK(again.fixtures[1].dimmer == 0.37F);
    CHECK(again.fixtures[1].gel.stops == 0.5);
    REQUIRE(again.fixtures[1].gel.spectrum);
    CHECK(again.fixtures[1].gel.spectrum->at(555) == 0.25F);
}

TEST_CASE("where the lamps are comes back, and is not known of a film that did not keep it") {
    const TemporaryFolder folder;
    const std::string path = written(folder, full_record());
    const FilmRecord again = read_exr(path);
    REQUIRE(again.lamp_places.size() == 2);
    CHECK(again.lamp_places[0].position == Point(1, 2, 3));
    CHECK(again.lamp_places[0].passes == std::vector<std::string>{"jar", "cloth"});
    change_film(path, folder / "older.exr", replaced(film_of(path), "lamp_places", "others"));
    CHECK(read_exr(folder / "older.exr").lamp_places.empty());
}

TEST_CASE("without its pixels a film has the rest of it") {
    const TemporaryFolder folder;
    const FilmRecord record = full_record();
    const FilmRecord header = read_exr_without_pixels(written(folder, record));
    CHECK(header.title == record.title);
    CHECK(header.width() == record.width());
    CHECK(header.light.empty());
    CHECK(header.layers.size() == record.layers.size());
}

TEST_CASE("after a single pass the film's errors are not known, also when read back") {
    const TemporaryFolder folder;
    const FilmRecord again = read_exr(written(folder, full_record(1)));
    CHECK_FALSE(again.noise_known());
    CHECK_FALSE(again.meters[0].lux.stderr_of_sum());
}

TEST_CASE("a file that is not a film of ours is reported in one line") {
    const TemporaryFolder folder;
    const std::string path = written(folder, full_record());
    const std::string other = folder / "other.exr";
    const auto message = [&](const std::string& film) {
        change_film(path, other, film);
        return message_of([&] { read_exr(other); });
    };
    CHECK(message("") ==
          other + ": is a film of an older dapple, which kept less; render the set again");
    CHECK(message(replaced(film_of(path), "\"version\":1", "\"version\":7")) ==
          other + ": is a film of version 7; this dapple reads version 1; render the set again");
    CHECK(message("{") == other + ": is damaged: its film cannot be read; render the set again");
    CHECK(message(replaced(film_of(path), "\"frame_px\":[37", "\"frame_px\":[38")) ==
          other + ": is damaged: its frame has another size than its film");
    CHECK(message(replaced(film_of(path), "\"layer\":\"net.cool\"", "\"layer\":\"moon\"")) ==
          other + ": is damaged: it has no channel moon.R");
    CHECK(message_of([&] { read_exr(folder / "none.exr"); }) ==
          (folder / "none.exr") + ": cannot be read: No such file or directory");
    put_file(folder / "text.exr", "not a picture");
    CHECK(message_of([&] { read_exr(folder / "text.exr"); }) ==
          (folder / "text.exr") + ": is not an EXR, or is damaged");
    CHECK(message_of([&] { read_exr(folder.path()); }) ==
          folder.path() + ": is a folder, not an EXR");
}

TEST_CASE("a truncated film is reported in one line, wherever it ends") {
    const TemporaryFolder folder;
    const std::string whole = get_file(written(folder, full_record()));
    const std::string part = folder / "part.exr";
    for (int i = 0; i < 40; ++i) {
        const size_t size = whole.size() * static_cast<size_t>(i) / 40;
        CAPTURE(size);
        put_file(part, whole.substr(0, size));
        const std::string message = message_of([&] { read_exr(part); });
        CHECK(message.starts_with(part + ": is "));
        CHECK(message.find('\n') == std::string::npos);
    }
}
