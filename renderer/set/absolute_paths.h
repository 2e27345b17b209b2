// A set file's text that can stand in another folder.
#pragma once

#include <string>

namespace dapple {

// Makes the paths of models, photometric files, spectra and stencils absolute; they are relative to
// `folder`, which must be absolute. Everything else stays as it is. `text` must be valid TOML.
std::string with_absolute_paths(const std::string& text, const std::string& folder);

}  // namespace dapple
