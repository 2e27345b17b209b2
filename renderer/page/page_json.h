// The numbers of a page, as JSON. Private to this folder.
#pragma once

#include <string>
#include <vector>

#include "develop/film_record.h"
#include "page/layer_codec.h"

namespace dapple {

struct PageLayer {
    LayerCode code;
    int red = 0, blue = 0;  // as of EncodedLayer
    size_t bytes = 0;       // packed
};

// How the page's frame is kept.
struct PageFrame {
    std::string name;
    int width = 0, height = 0;
    std::vector<PageLayer> layers;
};

// Safe inside a script element: it has no "<".
std::string page_json_text(const FilmRecord& film, const PageFrame& frame);

}  // namespace dapple
