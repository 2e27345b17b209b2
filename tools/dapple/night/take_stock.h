// What of a night is really there: files may be damaged, missing, or newer than overnight.json.
#pragma once

#include "night/night_files.h"

namespace dapple {

// Corrects what overnight.json tells by what is on the disk. A variant whose passes are damaged
// (they are then set aside, and that is told) or whose results are missing counts as not begun: its
// results are made again, from the passes that there are. Throws FileError if the passes in a
// folder are those of another set.
void take_stock(const NightPlan& plan, const std::string& folder, std::vector<NightState>& states);

}  // namespace dapple
