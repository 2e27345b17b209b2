#include "rebalance/rebalance.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "develop/develop.h"

namespace dapple {

namespace {

// The layers' changes for colours of the picture.
struct PictureChanges {
    std::vector<size_t> from;
    std::vector<Mat3> matrices;
    Vec3 luminance{0};  // of a colour, cd/m²

    PictureChanges(const Camera& camera, const std::vector<LayerChange>& changes) {
        const DMat3 develop = develop_matrix(camera);
        const DMat3 undo = glm::inverse(develop);
        luminance = Vec3(glm::transpose(undo)[1]);
        for (const LayerChange& change : changes) {
            from.push_back(static_cast<size_t>(change.from));
            matrices.emplace_back(develop * change.relight.matrix * undo);
        }
    }
};

// Changes one pixel of all layers and adds them up. Returns the factor of its error.
class PixelChange {
  public:
    PixelChange(const PictureChanges& changes, const std::vector<std::vector<Rgb>*>& layers)
        : changes_(changes), layers_(layers), old_(layers.size()) {}

    float apply(size_t pixel, Rgb& total) {
        for (size_t g = 0; g < old_.size(); ++g) old_[g] = (*layers_[g])[pixel];
        DMat3::col_type sum(0);
        float was = 0;
        float is = 0;
        for (size_t g = 0; g < old_.size(); ++g) {
            const Rgb colour = changes_.matrices[g] * old_[changes_.from[g]];
            (*layers_[g])[pixel] = colour;
            sum += DMat3::col_type(colour);
            was += square(glm::dot(changes_.luminance, old_[g]));
            is += square(glm::dot(changes_.luminance, colour));
        }
        total = Rgb(sum);
        return was > 0 ? std::sqrt(is / was) : 0.0F;
    }

  private:
    const PictureChanges& changes_;
    const std::vector<std::vector<Rgb>*>& layers_;
    std::vector<Rgb> old_;
};

// Layers, their sum, and whatever is as large as the error.
struct Light {
    std::vector<std::vector<Rgb>*> layers;
    std::vector<Rgb>* total;
    std::vector<std::vector<float>*> errors;
};

void change_light(const PictureChanges& changes, const Light& light) {
    parallel_blocks(
        static_cast<int64_t>(light.total->size()), 4096, [&](int64_t first, int64_t last) {
            PixelChange change(changes, light.layers);
            for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
                const float factor = change.apply(i, (*light.total)[i]);
                for (std::vector<float>* values : light.errors) {
                    if (!values->empty()) (*values)[i] *= factor;
                }
            }
        });
}

Light measured_light(FilmRecord& film) {
    Light light{{}, &film.light, {&film.luminance_stderr, &film.noise}};
    for (LightLayer& layer : film.layers) light.layers.push_back(&layer.light);
    return light;
}

Light clean_light(FilmRecord& film) {
    Light light{{}, &film.clean, {&film.clean_stderr}};
    for (LightLayer& layer : film.layers) light.layers.push_back(&layer.clean);
    return light;
}

// What the lens makes of each lamp's light follows the light.
void change_glare(const PictureChanges& changes, FilmRecord& film) {
    Light light{{}, &film.glare, {}};
    for (LightLayer& layer : film.layers) light.layers.push_back(&layer.glare);
    change_light(changes, light);
}

// Mean luminance of each fixture's layers.
std::vector<double> means_by_fixture(const FilmRecord& film) {
    std::vector<double> means(film.fixtures.size(), 0.0);
    for (size_t g = 0; g < film.layers.size(); ++g) {
        const int fixture = film.layers[g].fixture;
        if (fixture >= 0) means[static_cast<size_t>(fixture)] += film.frame.means[g];
    }
    return means;
}

// The lamps' light on the lens, and their ghosts, change as their light in the frame does.
void change_report(const std::vector<double>& was, FilmRecord& film) {
    const std::vector<double> is = means_by_fixture(film);
    for (GlareLamp& lamp : film.glare_report.lamps) {
        for (size_t f = 0; f < film.fixtures.size(); ++f) {
            if (film.fixtures[f].name != lamp.fixture || !(was[f] > 0)) continue;
            lamp.lux *= is[f] / was[f];
            for (Ghost& ghost : lamp.ghosts) ghost.luminance *= is[f] / was[f];
        }
    }
    std::erase_if(film.glare_report.lamps, [](const GlareLamp& lamp) { return !(lamp.lux > 0); });
}

bool changes_anything(const std::vector<LayerChange>& changes) {
    for (size_t g = 0; g < changes.size(); ++g) {
        if (changes[g].from != static_cast<int>(g)) return true;
        if (changes[g].relight.matrix != DMat3(1.0)) return true;
    }
    return false;
}

// Without clean layers there is no clean frame any more.
bool has_clean_layers(const FilmRecord& film) {
    return std::all_of(film.layers.begin(), film.layers.end(), [](const LightLayer& layer) {
        return !layer.clean.empty();
    });
}

std::optional<double> median_percent(const FilmRecord& film) {
    std::vector<double> percents;
    const size_t step = std::max<size_t>(1, film.luminance.size() / 4096);
    for (size_t i = step / 2; i < film.luminance.size(); i += step) {
        if (!(film.luminance[i] > 0)) continue;
        percents.push_back(100.0 *
                           static_cast<double>(film.luminance_stderr[i] / film.luminance[i]));
    }
    if (percents.empty()) return std::nullopt;
    const auto middle = percents.begin() + static_cast<std::ptrdiff_t>(percents.size() / 2);
    std::nth_element(percents.begin(), middle, percents.end());
    return *middle;
}

void change_measures(const std::vector<LayerChange>& changes, FilmRecord& film) {
    film.frame = change_means(film.frame, changes, mean_luminance(film));
    for (RegionRecord& region : film.regions) {
        region.luminance =
            change_means(region.luminance, changes, mean_luminance(film, region.pixels));
    }
    for (MeterRecord& meter : film.meters) {
        const std::vector<Xyz> old = meter.xyz;
        meter.lux = change_means(meter.lux, changes, change_lux(meter, changes));
        for (size_t g = 0; g < changes.size(); ++g) {
            meter.xyz[g] = changes[g].relight.matrix * old[static_cast<size_t>(changes[g].from)];
        }
    }
    // Known before only after enough passes; the clean frame's is not estimated anew.
    if (film.run.noise_percent) film.run.noise_percent = median_percent(film);
    film.run.clean_noise_percent.reset();
}

}  // namespace

GroupMeans change_means(const GroupMeans& means,
                        const std::vector<LayerChange>& changes,
                        std::vector<double> new_means) {
    const size_t n = means.groups();
    std::vector<double> factors(n);
    for (size_t g = 0; g < n; ++g) {
        const double was = means.means[static_cast<size_t>(changes[g].from)];
        factors[g] = was > 0 ? new_means[g] / was : 0.0;
    }
    GroupMeans result{std::move(new_means), {}};
    if (means.covariances.empty()) return result;
    for (size_t g = 0; g < n; ++g) {
        for (size_t h = 0; h < n; ++h) {
            const size_t at =
                static_cast<size_t>(changes[g].from) * n + static_cast<size_t>(changes[h].from);
            result.covariances.push_back(factors[g] * factors[h] * means.covariances[at]);
        }
    }
    return result;
}

std::vector<double> change_lux(const MeterRecord& meter, const std::vector<LayerChange>& changes) {
    std::vector<double> lux;
    for (const LayerChange& change : changes) {
        lux.push_back((change.relight.matrix * meter.xyz[static_cast<size_t>(change.from)]).y);
    }
    return lux;
}

FilmRecord rebalance(FilmRecord film,
                     const std::vector<Fixture>& wanted,
                     const std::vector<LayerChange>& changes) {
    if (!changes_anything(changes)) return film;
    const PictureChanges picture(film.camera, changes);
    if (film.has_glare()) change_glare(picture, film);
    change_light(picture, measured_light(film));
    for (size_t i = 0; i < film.luminance.size(); ++i) {
        film.luminance[i] = glm::dot(picture.luminance, film.light[i]);
    }
    if (has_clean_layers(film)) {
        change_light(picture, clean_light(film));
    } else {
        film.clean.clear();
        film.clean_stderr.clear();
    }
    const std::vector<double> was = means_by_fixture(film);
    change_measures(changes, film);
    change_report(was, film);
    film.fixtures = wanted;
    return film;
}

}  // namespace dapple
