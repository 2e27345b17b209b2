// photometry = "x.ies" or "x.ldt" of a fixture: its candela, opening and watts, checked.
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
    // Of the luminous opening, m: along the file's planes 0°–180° and 90°–270°; 0: a point. A round
    // one has the same twice.
    Vec2 opening{0};
    bool round = false;
    double watts = 0;  // 0: not said
};

// Nothing comes back, with a problem, where the file cannot be used. `axis`: which way the fixture
// looks; a file may say how its lamps shine when it is tilted.
std::optional<PhotometricFile> build_photometry(const Field<std::string>& file,
                                                const Direction& axis,
                                                Problems& problems);

// The same for the two kinds of file.
std::optional<PhotometricFile> build_ies(const std::string& path,
                                         const Direction& axis,
                                         Problems& problems);
std::optional<PhotometricFile> build_eulumdat(const std::string& path, Problems& problems);

}  // namespace dapple
