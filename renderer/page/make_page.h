// One HTML page that holds a film: the frame computed live from its clean layers, with a slider for
// each fixture. It opens in a browser without a network.
//
// The page's parts are the files in parts/, embedded when the program is built. The film's numbers
// are JSON, its layers are packed (layer_codec.h) and written as base85.
#pragma once

#include <string>

#include "develop/film_record.h"

namespace dapple {

struct PageOptions {
    std::string name;               // of the film, for the page's title and its command line
    size_t most_bytes = 8'000'000;  // of the page
    bool keeps_size = false;        // never makes the frame smaller
};

struct FilmPage {
    std::string html;
    int width = 0, height = 0;  // of the frame in it, smaller than the film's if that was too large
    double steps = 0;           // of each layer, from black to white (E176)
};

// Packs less precisely, then a smaller frame, until the page is small enough.
FilmPage make_page(const FilmRecord& film, const PageOptions& options);

}  // namespace dapple
