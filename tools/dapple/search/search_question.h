// What a search is about: which thing of which set, what of it may change, and what is wanted.
#pragma once

#include <string>
#include <vector>

#include "base/problems.h"
#include "set/variants/variants_file.h"
#include "variants/search/search_space.h"

namespace dapple {

// How a place is looked at. The defaults are measured: tools/bench/README.md.
struct QuickLook {
    int width = 160;  // px; ask_search() finds the one that is needed
    int passes = 2;
    int more_passes = 4;  // of places that look good after the first ones
    double footprint_px = 2.5;
    double light_walks_per_pixel = 0;  // 0: as in a render
    uint64_t seed = 1;  // the same for all places, so they share their random numbers
    int threads = 0;    // 0: all
};

struct SearchQuestion {
    std::string set_path;
    std::string set_text;  // with the regions that the search has added
    SearchSpace space;
    std::vector<Wish> wishes;
    QuickLook look;
};

// What a photographer says of it, as text.
struct SearchWords {
    std::string thing;               // its name, or "glass.NAME"
    double within = 0;               // m along x and z, around where it stands; 0: not said
    std::vector<std::string> vary;   // "height=0..0.5", "turn=0..15", "distance from lamp=0.3..1"
    std::vector<std::string> wants;  // "back wall.texture=more", "face.lux=800"
};

// Reads the set file and finds in it what the words name. What is wrong goes to `problems`, with
// the option's name as its key.
SearchQuestion ask_search(const std::string& set_path,
                          const std::string& set_text,
                          const SearchWords& words,
                          Problems& problems);

}  // namespace dapple
