// The stops map: exposure as colours in stops about mid-grey, with labelled lines of equal exposure
// and a legend.
//
// Colours: develop/stops_ramp.h. Light: of the clean frame where there is one, else as measured.
// The lines are drawn every stop, on light blurred by 1/250 of the frame's width: ripples finer
// than that keep their colours and have no lines. The line of white, where tones begin to clip, is
// dashed.
#pragma once

#include "develop/film_record.h"
#include "sheets/page.h"

namespace dapple {

Page make_stops_map(const FilmRecord& record);

// Pixels per inch at which the map shows every pixel of the frame, at least 120.
double stops_map_dpi(const FilmRecord& record);

}  // namespace dapple
