// What the user asks of a film's fixtures: "net.dimmer=0.5", one off, or one alone.
#pragma once

#include <string>
#include <vector>

#include "base/problems.h"
#include "develop/film_record.h"

namespace dapple {

struct Settings {
    std::vector<std::string> set;   // "FIXTURE.KEY=VALUE"
    std::vector<std::string> off;   // fixtures
    std::vector<std::string> solo;  // fixtures; all others are off
};

// The film's fixtures with these settings. Reports a setting that cannot be, and notes one that the
// fixture itself could not follow. A place names the option.
std::vector<Fixture> apply_settings(const FilmRecord& film,
                                    const Settings& settings,
                                    Problems& problems);

// The index of the fixture of this name; nothing, with a problem, if there is none.
std::optional<size_t> find_fixture(const FilmRecord& film,
                                   const std::string& name,
                                   const std::string& option,
                                   Problems& problems);

}  // namespace dapple
