// Reads MTL files: newmtl, Kd, d, Tr, map_Kd, map_d. What the renderer has no use for (shine,
// other maps, light given off) is passed over, with a note where the picture would miss it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problems.h"
#include "set/obj/obj_description.h"

namespace dapple {

// Appends the materials of one file. Maps are named as the file names them: find_maps follows.
void read_mtl(const std::string& path, std::vector<MtlDescription>& materials, Problems& problems);

// The same for text in memory; `path` names it in messages.
void read_mtl_text(std::string_view text,
                   const std::string& path,
                   std::vector<MtlDescription>& materials,
                   Problems& problems);

// Turns the maps' names into paths on disk. A map that is not there is a problem if its material is
// used, and is left out in any case.
void find_maps(std::vector<MtlDescription>& materials,
               const std::vector<bool>& is_used,
               Problems& problems);

}  // namespace dapple
