// Reads photometry = "x.ies" or "x.ldt" of a fixture: candela, opening and watts, checked.
#pragma once

#include <optional>
#include <string>

#include "base/problems.h"
#include "math/vec.h"
#include "scene/photometry/photometry.h"
#include "set/set_description.h"

namespace dapple {

struct PhotometricFile {
    Photometry photometry;
    // Size of the luminous opening, m: along the file's planes 0°–180° and 90°–270°; 0: a point.
    // Both are the diameter if it is round.
    Vec2 opening{0};
    bool round = false;
    double watts = 0;  // 0: not in the file
};

// Returns nothing, with a problem, if the file cannot be used. `axis` is the direction of the
// fixture, as a file may say how the light changes when the fixture is tilted.
std::optional<PhotometricFile> build_photometry(const Field<std::string>& file,
                                                const Direction& axis,
                                                Problems& problems);

// The same for the two kinds of file.
std::optional<PhotometricFile> build_ies(const std::string& path,
                                         const Direction& axis,
                                         Problems& problems);
std::optional<PhotometricFile> build_eulumdat(const std::string& path, Problems& problems);

}  // namespace dapple
