// Reads EULUMDAT files (.ldt): one value a line, in a fixed order.
//
// A comma may stand before decimals. The tables stand at the file's end, below a head whose length
// follows from the number of lamp sets; files that leave out the ten direct ratios, or these and
// the last three lines of their one lamp set, are read all the same.
// Source: Stockmar, Licht '90, pp. 641–644 (1990), as quoted by public descriptions.
#pragma once

#include <optional>

#include "set/photometry/photometry_description.h"

namespace dapple {

std::optional<EulumdatDescription> read_eulumdat(const std::string& path, Problems& problems);

}  // namespace dapple
