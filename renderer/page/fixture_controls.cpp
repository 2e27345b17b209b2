#include "page/fixture_controls.h"

#include <algorithm>
#include <cmath>

#include "develop/develop.h"
#include "rebalance/layer_changes.h"
#include "spectrum/led.h"
#include "spectrum/tungsten.h"

namespace dapple {

namespace {

constexpr double kCctStep = 100;     // K, of an LED's slider
constexpr int kEntriesPerStop = 10;  // of a dimmer that warms
constexpr int kStopsOfDimmer = 10;

// The matrices of one fixture's layers with another light, in colours of the picture.
std::vector<DMat3> matrices_of(const FilmRecord& film,
                               const std::vector<int>& layers,
                               const std::vector<Fixture>& wanted) {
    const DMat3 develop = develop_matrix(film.camera);
    const DMat3 undo = glm::inverse(develop);
    const std::vector<LayerChange> changes = make_layer_changes(film, wanted);
    std::vector<DMat3> matrices(layers.size(), DMat3(0.0));
    for (const int g : layers) {
        const LayerChange& change = changes[static_cast<size_t>(g)];
        const auto from = std::find(layers.begin(), layers.end(), change.from) - layers.begin();
        matrices[static_cast<size_t>(from)] += develop * change.relight.matrix * undo;
    }
    return matrices;
}

void add_colours(const FilmRecord& film, size_t fixture, FixtureControl& control) {
    const double now = film.fixtures[fixture].cct_k;
    std::vector<double> ccts = {now};
    for (double cct = kLedMinCct; cct <= kLedMaxCct; cct += kCctStep) {
        if (std::abs(cct - now) > 1) ccts.push_back(cct);
    }
    std::sort(ccts.begin(), ccts.end());
    for (const double cct : ccts) {
        std::vector<Fixture> wanted = film.fixtures;
        wanted[fixture].cct_k = static_cast<float>(cct);
        control.entries.push_back({cct, cct, matrices_of(film, control.layers, wanted)});
    }
}

void add_dimmers(const FilmRecord& film, size_t fixture, FixtureControl& control) {
    const Fixture& lamp = film.fixtures[fixture];
    std::vector<double> dimmers = {static_cast<double>(lamp.dimmer)};
    for (int i = 0; i <= kStopsOfDimmer * kEntriesPerStop; ++i) {
        dimmers.push_back(std::exp2(-static_cast<double>(i) / kEntriesPerStop));
    }
    std::sort(dimmers.begin(), dimmers.end());
    for (const double dimmer : dimmers) {
        std::vector<Fixture> wanted = film.fixtures;
        wanted[fixture].dimmer = static_cast<float>(dimmer);
        ControlEntry entry{dimmer,
                           dim_tungsten(lamp.cct_k, dimmer).cct_k,
                           matrices_of(film, control.layers, wanted)};
        for (DMat3& matrix : entry.matrices) matrix /= dimmer;
        control.entries.push_back(std::move(entry));
    }
}

}  // namespace

FixtureControl make_fixture_control(const FilmRecord& film, size_t fixture) {
    FixtureControl control;
    for (size_t g = 0; g < film.layers.size(); ++g) {
        if (film.layers[g].fixture == static_cast<int>(fixture)) {
            control.layers.push_back(static_cast<int>(g));
        }
    }
    const Fixture& lamp = film.fixtures[fixture];
    if (!has_light(film, fixture)) {
        control.kind = FixtureControl::Kind::kDark;
    } else if (lamp.source == SourceKind::kLed) {
        control.kind = FixtureControl::Kind::kLed;
        add_colours(film, fixture, control);
    } else if (lamp.source == SourceKind::kTungsten && lamp.dimmer_warms) {
        control.kind = FixtureControl::Kind::kWarming;
        add_dimmers(film, fixture, control);
    }
    return control;
}

}  // namespace dapple
