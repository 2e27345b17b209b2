// One HTML page of a night: all variants as cards with picture, place and measures; sorting,
// filters, any two side by side, and which knob moved which measure. It opens in a browser without
// a network.
//
// The page's parts are the files in night/, embedded when the program is built. Its numbers are
// those of overnight.json. Its pictures are decoded when they are about to be seen.
#pragma once

#include <string>
#include <vector>

namespace dapple {

struct NightPage {
    std::string title;
    std::string json;                   // as overnight.json, and what only the page needs
    std::vector<std::string> pictures;  // JPEG files, by variant; empty: it has none
};

std::string make_night_page(const NightPage& page);

}  // namespace dapple
