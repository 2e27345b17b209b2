// The contact sheet: frames in a grid at their own proportions, each with its caption below it.
//
// White A4 pages, portrait or landscape (contact_grid.h). Every page has the heading and its
// number. Long names are broken into lines, and lose their middle after the third.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "develop/develop.h"
#include "sheets/page.h"

namespace dapple {

struct ContactFrame {
    int width = 0, height = 0;         // of the picture, px
    std::function<Picture()> picture;  // from develop_display; called when its page is drawn
    std::string name;
    std::string light;  // one sentence
};

// A frame whose picture is kept.
ContactFrame make_contact_frame(Picture picture, std::string name, std::string light);

struct ContactSheet {
    std::string heading;
    std::string note;  // below the heading
    std::vector<ContactFrame> frames;
};

// If all of several frames have the same light, the sentence moves below the heading.
void say_common_light_once(ContactSheet& sheet);

// Draws one page after the other. A page that `use` does not keep is gone before the next one, and
// so are its pictures. At least one frame.
void draw_contact_sheet(const ContactSheet& sheet, const std::function<void(const Page&)>& use);

std::vector<Page> make_contact_sheet(const ContactSheet& sheet);

// The longer side of a frame on a sheet of so many, px, that is still sharp in print.
int contact_frame_side(size_t frames);

}  // namespace dapple
