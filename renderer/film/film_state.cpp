#include "film/film_state.h"

namespace dapple {

bool is_like(const FilmState& a, const FilmState& b) {
    return a.sums.size() == b.sums.size() && a.drawn_xyz.size() == b.drawn_xyz.size() &&
           a.luminance_squares.size() == b.luminance_squares.size() &&
           a.walk_differences.size() == b.walk_differences.size() &&
           a.other_light.size() == b.other_light.size() &&
           a.odd_other_light.size() == b.odd_other_light.size() &&
           a.brightest_pass.size() == b.brightest_pass.size() &&
           a.colour_sums.size() == b.colour_sums.size();
}

}  // namespace dapple
