// What becomes of each layer of a film when its fixtures get other dimmers and colours.
#pragma once

#include <vector>

#include "develop/film_record.h"
#include "rebalance/relight.h"

namespace dapple {

struct LayerChange {
    int from =
        0;  // the layer whose light is taken: its own, or if that is dark the fixture's other
    Relight relight;  // to the new light
};

// Whether the film holds light of this fixture that can be scaled.
bool has_light(const FilmRecord& film, size_t fixture);

// `wanted`: the film's fixtures, in its order, with other dimmers, colours and gels. A fixture
// without light in the film must stay dark (has_light).
std::vector<LayerChange> make_layer_changes(const FilmRecord& film,
                                            const std::vector<Fixture>& wanted);

}  // namespace dapple
