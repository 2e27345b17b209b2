// Reads the [limits] of a variants file.
#pragma once

#include <toml++/toml.h>

#include <string>

#include "set/variants/variants_file.h"

namespace dapple {

// Whether `until` is a time is not checked here.
FileLimits read_limits(const toml::table& root, const std::string& path, Problems& problems);

}  // namespace dapple
