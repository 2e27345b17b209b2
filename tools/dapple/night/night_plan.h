// What a night is going to do, checked as a whole before anything is rendered.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/problems.h"
#include "night/night_memory.h"
#include "render/render_options.h"
#include "set/variants/variants_file.h"
#include "variants/choose_variants.h"

namespace dapple {

struct NightVariant {
    Variant variant;
    std::string set_text;    // of its set file, with absolute paths
    std::string as_written;  // the same with the paths of the set that varies
    size_t film = 0;  // the variant whose film it is made of; its own index if it is rendered
    uint64_t fingerprint = 0;
};

struct NightPlan {
    VariantsFile file;
    std::vector<NightVariant> variants;
    std::string stem;      // of the set file: the name of the results in each variant's folder
    int width = 0;         // px, 0: the set's
    double megabytes = 0;  // on the disk, about, for all results
    NightMemory memory;    // of the variant that needs most

    size_t films() const;
    std::string folder_of(const std::string& night_folder, size_t variant) const;
};

// Reads the variants file and its set, and checks every variant's set; where rays meet something
// else than before, also that nothing stands in the way. `options` are those of the
// renders.
NightPlan plan_night(const std::string& variants_path,
                     int width,
                     const RenderOptions& options,
                     Problems& problems);

// The same for variants that were chosen otherwise. `text` is that of the set; of `file` the set's
// path and the wishes count.
NightPlan plan_variants(VariantsFile file,
                        const std::string& text,
                        const std::vector<Variant>& variants,
                        int width,
                        const RenderOptions& options,
                        Problems& problems);

}  // namespace dapple
