// The contact sheet: frames in a grid at their own proportions, each with its caption below it.
//
// White A4 pages, portrait or landscape (contact_grid.h). Every page has the heading and its
// number. Long names are broken into lines, and lose their middle after the third.
#pragma once

#include <string>
#include <vector>

#include "develop/develop.h"
#include "sheets/page.h"

namespace dapple {

struct ContactFrame {
    Picture picture;  // from develop_display
    std::string name;
    std::string light;  // one sentence
};

struct ContactSheet {
    std::string heading;
    std::string note;  // below the heading
    std::vector<ContactFrame> frames;
};

// If all of several frames have the same light, the sentence moves below the heading.
void say_common_light_once(ContactSheet& sheet);

// At least one frame.
std::vector<Page> make_contact_sheet(const ContactSheet& sheet);

// The longer side of a frame on a sheet of so many, px, that is still sharp in print.
int contact_frame_side(size_t frames);

}  // namespace dapple
