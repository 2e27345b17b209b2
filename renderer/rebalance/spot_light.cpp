#include "rebalance/spot_light.h"

#include <cmath>

#include "develop/develop.h"
#include "rebalance/rebalance.h"

namespace dapple {

namespace {

// Mean XYZ of each layer over a region, Y in cd/m².
std::vector<Xyz> mean_xyz(const FilmRecord& film, const RegionRecord& region) {
    const DMat3 undo = glm::inverse(develop_matrix(film.camera));
    std::vector<Xyz> means;
    for (const LightLayer& layer : film.layers) {
        Xyz sum(0);
        for (const int32_t i : region.pixels) sum += Xyz(layer.light[static_cast<size_t>(i)]);
        const auto pixels = static_cast<double>(std::max<size_t>(1, region.pixels.size()));
        means.push_back(undo * sum / pixels);
    }
    return means;
}

}  // namespace

SpotLight::SpotLight(const FilmRecord& film, const LightSpot& spot)
    : film_(film),
      spot_(spot),
      xyz_(spot.meter >= 0 ? film.meters[static_cast<size_t>(spot.meter)].xyz
                           : mean_xyz(film, film.regions[static_cast<size_t>(spot.region)])),
      means_(spot.meter >= 0 ? film.meters[static_cast<size_t>(spot.meter)].lux
                             : film.regions[static_cast<size_t>(spot.region)].luminance) {}

std::vector<double> SpotLight::by_layer(const std::vector<LayerChange>& changes) const {
    std::vector<double> light;
    for (const LayerChange& change : changes) {
        light.push_back((change.relight.matrix * xyz_[static_cast<size_t>(change.from)]).y);
    }
    return light;
}

std::vector<double> SpotLight::by_fixture(const std::vector<LayerChange>& changes) const {
    std::vector<double> light(film_.fixtures.size(), 0.0);
    const std::vector<double> layers = by_layer(changes);
    for (size_t g = 0; g < layers.size(); ++g) {
        const int f = film_.layers[g].fixture;
        if (f < 0 || (spot_.fixture >= 0 && f != spot_.fixture)) continue;
        light[static_cast<size_t>(f)] += layers[g];
    }
    return light;
}

std::optional<double> SpotLight::stderr_stops(const std::vector<LayerChange>& changes) const {
    const GroupMeans means = change_means(means_, changes, by_layer(changes));
    std::vector<double> weights(means.groups(), 0.0);
    double sum = 0;
    for (size_t g = 0; g < weights.size(); ++g) {
        const bool counts = spot_.fixture < 0 || film_.layers[g].fixture == spot_.fixture;
        weights[g] = counts ? 1 : 0;
        sum += weights[g] * means.means[g];
    }
    const auto error = means.stderr_of_sum(weights);
    if (!error || !(sum > 0)) return std::nullopt;
    return *error / (sum * std::log(2.0));
}

}  // namespace dapple
