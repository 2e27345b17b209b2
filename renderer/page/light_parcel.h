// The light of a film for a page that a program on the same machine serves: nothing is packed, so
// it is there in a moment.
#pragma once

#include <cstddef>
#include <string>

#include "develop/film_record.h"

namespace dapple {

struct LightParcel {
    // As the film's page has it: the frame's size, the layers, the fixtures' tables, the meters.
    std::string json;
    // The clean light of each layer, one after the other: red, green and blue of each pixel, rows
    // from the top, 16-bit floats in the machine's own order.
    std::string halves;
};

// Makes the frame smaller by whole factors until `halves` has at most `most_bytes`.
LightParcel make_light_parcel(const FilmRecord& film, size_t most_bytes);

}  // namespace dapple
