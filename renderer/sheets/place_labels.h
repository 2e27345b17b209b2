// Places labels beside points so that none covers another, the texts that are there already, or
// another label's line.
//
// Each label is tried in a ring of places around its point, then in wider rings, first with its
// long text and then with its short one. Labels in crowded spots come first. Of the free places the
// one that is nearest and covers least of what is drawn is taken.
#pragma once

#include <string>
#include <vector>

#include "sheets/text_box.h"

namespace dapple {

struct LabelWish {
    std::string text;   // "3 key"
    std::string brief;  // "3"
    DVec2 anchor{0};    // mm
};

struct LabelRoom {
    PageBox area;                    // where labels may be
    std::vector<PageBox> forbidden;  // other texts
    std::vector<PageBox> drawn;      // what should rather not be covered
};

struct PlacedLabel {
    size_t wish = 0;
    TextBox text;
    PageBox box;     // of the text with its margin
    DVec2 line_end;  // of the line to the anchor
    bool has_line = false;
};

// A wish that fits nowhere has no label; the tables have it anyway.
std::vector<PlacedLabel> place_labels(const std::vector<LabelWish>& wishes, const LabelRoom& room);

void draw_labels(Page& page,
                 const std::vector<LabelWish>& wishes,
                 const std::vector<PlacedLabel>& labels);

}  // namespace dapple
