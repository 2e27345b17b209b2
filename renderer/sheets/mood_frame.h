// A mood frame: a developed frame on a dark mount with a quiet caption below it.
#pragma once

#include <string>

#include "develop/develop.h"

namespace dapple {

struct MoodCaption {
    std::string title;
    std::string variant;  // "": none
    std::string light;    // one sentence
};

struct MoodFrame {
    Picture picture;        // sRGB encoded, 0 to 1
    int left = 0, top = 0;  // px, where the frame is in it; its pixels are unchanged
};

// `frame` comes from develop_display. Type grows with the frame's width, from 12 px on.
MoodFrame make_mood_frame(const Picture& frame, const MoodCaption& caption);

// "Title: variant"; either may be empty.
std::string name_of(const MoodCaption& caption);

}  // namespace dapple
