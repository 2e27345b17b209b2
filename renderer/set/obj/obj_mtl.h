// Reads MTL files: newmtl, Kd, d, Tr, map_Kd, map_d. Other statements are skipped: those for gloss
// silently, other maps, emitted light and unknown words with a note.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problems.h"
#include "set/models/model_description.h"

namespace dapple {

// Appends the materials of one file. Maps still have the names from the file; see find_pictures.
void read_mtl(const std::string& path, std::vector<ModelMaterial>& materials, Problems& problems);

// The same for text in memory; messages name it `path`.
void read_mtl_text(std::string_view text,
                   const std::string& path,
                   std::vector<ModelMaterial>& materials,
                   Problems& problems);

}  // namespace dapple
