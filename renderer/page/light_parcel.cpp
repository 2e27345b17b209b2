#include "page/light_parcel.h"

#include <algorithm>

#include "base/parallel.h"
#include "math/half.h"
#include "page/page_json.h"
#include "page/shrink_light.h"

namespace dapple {

namespace {

void write_halves(const std::vector<Rgb>& light, char* out) {
    for (const Rgb& colour : light) {
        for (int c = 0; c < 3; ++c) {
            const uint16_t half = half_of(colour[c]);
            std::copy_n(reinterpret_cast<const char*>(&half), sizeof half, out);
            out += sizeof half;
        }
    }
}

}  // namespace

LightParcel make_light_parcel(const FilmRecord& film, size_t most_bytes) {
    PageFrame frame;
    frame.layers.resize(film.layers.size());
    size_t bytes = 0;
    int shrink = 0;
    do {
        ++shrink;
        frame.width = film.width() / shrink;
        frame.height = film.height() / shrink;
        bytes = static_cast<size_t>(frame.width) * static_cast<size_t>(frame.height) * 3 *
                sizeof(uint16_t);
    } while (bytes * film.layers.size() > most_bytes && frame.width > 1 && frame.height > 1);
    LightParcel parcel;
    parcel.halves.resize(bytes * film.layers.size());
    parallel_blocks(static_cast<int64_t>(film.layers.size()), 1, [&](int64_t g, int64_t) {
        const LightLayer& layer = film.layers[static_cast<size_t>(g)];
        write_halves(shrink_light(shown_light(layer), film.width(), film.height(), shrink),
                     parcel.halves.data() + static_cast<size_t>(g) * bytes);
    });
    parcel.json = page_json_text(film, frame);
    return parcel;
}

}  // namespace dapple
