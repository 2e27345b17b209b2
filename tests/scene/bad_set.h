// Sets with one mistake each, and the line that the user reads about it.
#pragma once

#include "scene/written_set.h"

namespace dapple {

struct BadSet {
    const char* what;
    std::string text;  // the mistake is near its start, for short line numbers
    std::string line;
};

inline void check_lines(WrittenSet& set, const std::vector<BadSet>& bad_sets) {
    for (const BadSet& bad : bad_sets) {
        set.build(bad.text);
        const std::vector<std::string> lines = set.lines();
        CAPTURE(bad.what);
        for (size_t i = 1; i < lines.size(); ++i) FAIL_CHECK("one line too many: " << lines[i]);
        REQUIRE_FALSE(lines.empty());
        CHECK(lines[0] == bad.line);
    }
}

// Sets without a camera, without a fixture, and with all that a set needs.
inline const std::string kAllButCamera = kRoom + kFixture;
inline const std::string kAllButFixture = kRoom + kCamera;
inline const std::string kWholeSet = kRoom + kCamera + kFixture;  // 11 lines

}  // namespace dapple
