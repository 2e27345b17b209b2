// The light of a film in one plain sentence, such as "Warm key from camera left through the ribbed
// jar, cool window as fill; soft contrast." It says only what the film keeps.
//
// Named are the key, the fill, and other fixtures that give at least a tenth of the picture's
// light, three at most. Warm and cool: at least 25 mired from the camera's white (common practice:
// the weakest correction filters that are sold as a step). Sides are the camera's, seen from the
// figure; without a figure from what the middle of the frame shows.
#pragma once

#include <string>

#include "judge/judge_film.h"

namespace dapple {

// "warm", "cool", "gelled", or "" where there is nothing to say.
std::string colour_word(const Fixture& fixture, double white_k);

// "from camera left", "from behind on camera right", "from the front", "from above".
std::string side_word(const Camera& camera, const Point& subject, const Point& lamp);

std::string light_sentence(const FilmRecord& record, const FilmStatistics& statistics);

}  // namespace dapple
