// Reads EULUMDAT files (.ldt): one value per line, in a fixed order.
//
// Decimals may follow a comma. The tables are at the end of the file, below a head whose length
// depends on the number of lamp sets. Files without the ten direct ratios are read too, and so are
// files without these and without the last three lines of their only lamp set.
// Source: Stockmar, Licht '90, pp. 641–644 (1990), as quoted by public descriptions.
#pragma once

#include <optional>

#include "set/photometry/photometry_description.h"

namespace dapple {

// Returns nothing, with a problem, if the file cannot be read.
std::optional<EulumdatDescription> read_eulumdat(const std::string& path, Problems& problems);

}  // namespace dapple
