#include "output/write_exr.h"

#include <algorithm>
#include <functional>
#include <limits>
#include <set>

#include "base/parallel.h"
#include "develop/develop.h"
#include "develop/exposure.h"
#include "output/image_file.h"

namespace dapple {

namespace {

// Writes the channels of one pixel from `out` on; returns the place after the last one.
using PixelWriter = std::function<float*(int pixel, float* out)>;

struct Channels {
    std::vector<std::string> names;
    std::vector<PixelWriter> writers;

    void add(const std::vector<std::string>& channels, PixelWriter writer) {
        names.insert(names.end(), channels.begin(), channels.end());
        writers.push_back(std::move(writer));
    }
    void add_rgb(const std::string& layer, PixelWriter writer) {
        const std::string prefix = layer.empty() ? "" : layer + ".";
        add({prefix + "R", prefix + "G", prefix + "B"}, std::move(writer));
    }
};

float* put(float* out, const Vec3& v) {
    for (int i = 0; i < 3; ++i) *out++ = v[i];
    return out;
}

void add_light(Channels& channels, const Film& film, const Scene& scene) {
    const DMat3 develop = develop_matrix(scene.camera);
    channels.add_rgb("", [&film, develop](int pixel, float* out) {
        return put(out, Rgb(develop * film.resolve(pixel)));
    });
    const std::vector<std::string> layers = layer_names(film, scene);
    for (int g = 0; g < static_cast<int>(layers.size()); ++g) {
        channels.add_rgb(layers[static_cast<size_t>(g)],
                         [&film, develop, g](int pixel, float* out) {
                             return put(out, Rgb(develop * film.resolve(pixel, g)));
                         });
    }
    channels.add({"luminance.Y", "luminance.stderr"}, [&film](int pixel, float* out) {
        *out++ = static_cast<float>(film.resolve(pixel).y);
        *out++ = static_cast<float>(film.luminance_stderr(pixel));
        return out;
    });
}

void add_clean(Channels& channels, const CleanFrame& clean, const Scene& scene) {
    const DMat3 develop = develop_matrix(scene.camera);
    channels.add_rgb("clean", [&clean, develop](int pixel, float* out) {
        return put(out, Rgb(develop * clean.total[static_cast<size_t>(pixel)]));
    });
    channels.add({"clean.stderr"}, [&clean](int pixel, float* out) {
        *out++ = clean.luminance_stderr[static_cast<size_t>(pixel)];
        return out;
    });
}

void add_first_hits(Channels& channels, const FirstHits& hits) {
    if (hits.empty()) return;
    channels.add_rgb("albedo", [&hits](int pixel, float* out) {
        return put(out, hits.albedo[static_cast<size_t>(pixel)]);
    });
    channels.add({"normal.X", "normal.Y", "normal.Z"}, [&hits](int pixel, float* out) {
        return put(out, hits.normal[static_cast<size_t>(pixel)]);
    });
    channels.add({"depth.Z", "surface.id"}, [&hits](int pixel, float* out) {
        *out++ = hits.depth[static_cast<size_t>(pixel)];
        *out++ = static_cast<float>(hits.surface[static_cast<size_t>(pixel)]);
        return out;
    });
}

std::string surface_table(const Scene& scene) {
    std::string table;
    for (size_t i = 0; i < scene.materials.size(); ++i) {
        table += std::to_string(i) + " " + scene.materials[i].name + "\n";
    }
    return table;
}

std::string fixture_table(const Film& film, const Scene& scene) {
    const std::vector<std::string> layers = layer_names(film, scene);
    std::string table;
    for (size_t g = 0; g < layers.size(); ++g)
        table += layers[g] + "\t" + film.groups()[g].name + "\n";
    return table;
}

OIIO::ImageSpec make_spec(const Film& film, const Scene& scene, const Channels& channels) {
    const Camera& camera = scene.camera;
    OIIO::ImageSpec spec(film.width(),
                         film.height(),
                         static_cast<int>(channels.names.size()),
                         OIIO::TypeDesc::FLOAT);
    spec.channelnames = channels.names;
    spec.attribute("compression", "zip");
    spec.attribute("oiio:ColorSpace", "Linear");
    // ITU-R BT.709-6: primaries and D65.
    const float chromaticities[8] = {0.64F, 0.33F, 0.30F, 0.60F, 0.15F, 0.06F, 0.3127F, 0.3290F};
    spec.attribute("chromaticities", OIIO::TypeDesc(OIIO::TypeDesc::FLOAT, 8), chromaticities);
    spec.attribute("whiteLuminance", static_cast<float>(white_luminance(camera)));
    spec.attribute("expTime", camera.shutter);
    spec.attribute("aperture", camera.f_number);
    spec.attribute("isoSpeed", camera.iso);
    spec.attribute("focus", camera.focus_distance > 0 ? camera.focus_distance : kInfinity);
    if (!scene.title.empty()) spec.attribute("comments", scene.title);
    spec.attribute("dapple:whiteKelvin", camera.white_k);
    spec.attribute("dapple:passes", film.passes());
    spec.attribute("dapple:surfaces", surface_table(scene));
    spec.attribute("dapple:fixtures", fixture_table(film, scene));
    return spec;
}

// Letters, digits, - and _ are kept; any other character becomes one "_", also where it has
// several bytes in UTF-8.
std::string safe_name(const std::string& name) {
    std::string safe;
    for (const char c : name) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') || c == '-' || c == '_';
        if (plain) {
            safe += c;
        } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
            safe += '_';
        }
    }
    return safe.empty() ? "_" : safe;
}

std::string make_different(const std::string& name, std::set<std::string>& taken) {
    std::string result = name;
    for (int i = 2; !taken.insert(result).second; ++i) result = name + "_" + std::to_string(i);
    return result;
}

}  // namespace

std::vector<std::string> layer_names(const Film& film, const Scene& scene) {
    std::set<std::string> taken = {
        "luminance", "clean", "mask", "albedo", "normal", "depth", "surface"};
    std::vector<std::string> fixtures;
    for (const Fixture& fixture : scene.fixtures) {
        fixtures.push_back(make_different(safe_name(fixture.name), taken));
    }
    std::vector<std::string> layers;
    for (const LightGroup& group : film.groups()) {
        const auto f = static_cast<size_t>(group.fixture);
        if (group.fixture < 0 || f >= fixtures.size() ||
            !group.name.starts_with(scene.fixtures[f].name)) {
            layers.push_back(make_different(safe_name(group.name), taken));
            continue;
        }
        layers.push_back(fixtures[f] + group.name.substr(scene.fixtures[f].name.size()));
    }
    return layers;
}

void write_exr(const std::string& path,
               const Film& film,
               const Scene& scene,
               const FirstHits& first_hits,
               const CleanFrame* clean,
               const InFrame* in_frame) {
    Channels channels;
    add_light(channels, film, scene);
    if (clean) add_clean(channels, *clean, scene);
    if (in_frame) {
        channels.add({"mask.in_frame"}, [in_frame](int pixel, float* out) {
            *out++ = in_frame->mask[static_cast<size_t>(pixel)];
            return out;
        });
    }
    add_first_hits(channels, first_hits);
    ImageFile file(path, "openexr", make_spec(film, scene, channels));
    // Written in bands of rows, so that a large frame needs no second copy in memory.
    constexpr int kBand = 64;
    const size_t stride = channels.names.size();
    std::vector<float> band(static_cast<size_t>(film.width()) * kBand * stride);
    for (int y = 0; y < film.height(); y += kBand) {
        const int last = std::min(y + kBand, film.height());
        parallel_blocks(last - y, 1, [&](int64_t row, int64_t) {
            float* out = band.data() + static_cast<size_t>(row * film.width()) * stride;
            const int begin = (y + static_cast<int>(row)) * film.width();
            for (int pixel = begin; pixel < begin + film.width(); ++pixel) {
                for (const PixelWriter& writer : channels.writers) out = writer(pixel, out);
            }
        });
        file.write_rows(y, last, OIIO::TypeDesc::FLOAT, band.data());
    }
    file.commit();
}

}  // namespace dapple
