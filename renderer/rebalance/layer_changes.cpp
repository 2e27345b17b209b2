#include "rebalance/layer_changes.h"

#include "fixtures/source_groups.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

// The spectra of a fixture's groups behind its dimmer and gel, per lumen of its undimmed lamp.
std::vector<Curve> light_of(const Fixture& fixture) {
    const SourceLight light = make_source_light(fixture);
    std::vector<Curve> spectra;
    for (const SourceGroup& group : light.groups) {
        spectra.push_back(group.spectrum *
                          (light.gel_passes * static_cast<double>(fixture.dimmer)));
    }
    return spectra;
}

std::vector<size_t> layers_of(const FilmRecord& film, size_t fixture) {
    std::vector<size_t> layers;
    for (size_t g = 0; g < film.layers.size(); ++g) {
        if (film.layers[g].fixture == static_cast<int>(fixture)) layers.push_back(g);
    }
    return layers;
}

// The brightest group.
size_t main_group(const std::vector<Curve>& spectra) {
    size_t main = 0;
    for (size_t i = 1; i < spectra.size(); ++i) {
        if (luminous_flux(spectra[i]) > luminous_flux(spectra[main])) main = i;
    }
    return main;
}

// Whether only the amount of light differs, which is exact and needs no spectra.
bool is_only_dimmed(const Fixture& was, const Fixture& is) {
    const bool warms = was.source == SourceKind::kTungsten && was.dimmer_warms;
    return was.source == is.source && was.cct_k == is.cct_k && was.duv == is.duv &&
           was.gel.shift_mired == is.gel.shift_mired && was.gel.stops == is.gel.stops &&
           was.gel.spectrum.has_value() == is.gel.spectrum.has_value() &&
           (!warms || was.dimmer == is.dimmer);
}

// Changes the layers of one fixture whose spectra differ.
void change_spectra(const Fixture& was_fixture,
                    const Fixture& is_fixture,
                    const std::vector<size_t>& layers,
                    std::vector<LayerChange>& changes) {
    const std::vector<Curve> was = light_of(was_fixture);
    const std::vector<Curve> is = light_of(is_fixture);
    const size_t main = main_group(was);
    if (!(luminous_flux(was[main]) > 0)) return;
    for (size_t i = 0; i < layers.size(); ++i) {
        const bool is_dark = !(luminous_flux(was[i]) > 0);
        const size_t from = is_dark ? main : i;
        changes[layers[i]] = {static_cast<int>(layers[from]), make_relight(was[from], is[i])};
    }
}

}  // namespace

bool has_light(const FilmRecord& film, size_t fixture) {
    const std::vector<Curve> spectra = light_of(film.fixtures[fixture]);
    return luminous_flux(spectra[main_group(spectra)]) > 0;
}

std::vector<LayerChange> make_layer_changes(const FilmRecord& film,
                                            const std::vector<Fixture>& wanted) {
    std::vector<LayerChange> changes(film.layers.size());
    for (size_t g = 0; g < changes.size(); ++g) changes[g].from = static_cast<int>(g);
    for (size_t f = 0; f < film.fixtures.size(); ++f) {
        const std::vector<size_t> layers = layers_of(film, f);
        if (!is_only_dimmed(film.fixtures[f], wanted[f])) {
            change_spectra(film.fixtures[f], wanted[f], layers, changes);
        } else if (film.fixtures[f].dimmer > 0) {
            const double ratio = static_cast<double>(wanted[f].dimmer) / film.fixtures[f].dimmer;
            for (const size_t g : layers) changes[g].relight.matrix = DMat3(ratio);
        }
    }
    return changes;
}

}  // namespace dapple
