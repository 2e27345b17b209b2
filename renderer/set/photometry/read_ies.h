// Reads IES LM-63 files of all editions, 1986 to 2019.
//
// Line breaks may be anywhere between numbers; blanks or commas separate them. Keywords are
// skipped. The version line may be missing; the TILT line may not. Source: ANSI/IES LM-63-1995,
// -2002 and -2019 as quoted by public descriptions.
#pragma once

#include <optional>

#include "set/photometry/photometry_description.h"

namespace dapple {

// Returns nothing, with a problem, if the file cannot be read.
std::optional<IesDescription> read_ies(const std::string& path, Problems& problems);

}  // namespace dapple
