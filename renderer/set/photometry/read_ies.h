// Reads IES LM-63 files of all editions, 1986 to 2019.
//
// Numbers may be wrapped at any place and parted by blanks or commas. Keywords are skipped. A file
// without a line that its edition wants (version, TILT) is read as far as its meaning is certain.
// Source: ANSI/IES LM-63-1995, -2002 and -2019 as quoted by public descriptions.
#pragma once

#include <optional>

#include "set/photometry/photometry_description.h"

namespace dapple {

std::optional<IesDescription> read_ies(const std::string& path, Problems& problems);

}  // namespace dapple
