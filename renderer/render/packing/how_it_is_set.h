// Short texts about how a thing is set, beside where it stands.
#pragma once

#include <cstdio>
#include <string>

#include "scene/packing_list.h"

namespace dapple {

template <class... Values>
std::string printed(const char* format, Values... values) {
    char text[160];
    std::snprintf(text, sizeof text, format, values...);
    return text;
}

std::string how_fixture_is_set(const Fixture& fixture, const PackedFixture& packed);
std::string how_glass_is_set(const GlassObject& glass, const Scene& scene);
std::string how_board_is_set(const Board& board, const Scene& scene);
std::string how_figure_is_set(const StandIn& figure);
std::string how_meter_is_set(const Meter& meter);
std::string how_camera_is_set(const Camera& camera);

// "LED spot", "tungsten panel"
std::string fixture_words(const Fixture& fixture);
// "jar 300 x 150 mm", "pane 400 x 300 mm"
std::string glass_words(const GlassObject& glass);
// "water, 60 % full"; "" if it is empty
std::string fill_words(const GlassObject& glass, const Scene& scene);
// "0.90 x 0.90 m", "0.40 m round"
std::string board_size_words(const Board& board);
// "+120 mired, 0.3 stops"; "own sheet"
std::string gel_words(const Gel& gel);

}  // namespace dapple
