// What a night writes into the folder of one variant: its set file, the passes of its film, and the
// picture, EXR and statistics that are made of them.
#pragma once

#include "develop/film_record.h"
#include "load_set.h"
#include "night/night_files.h"
#include "output/write_exr.h"
#include "render_files.h"

namespace dapple {

RenderFiles variant_files(const NightPlan& plan, const std::string& night_folder, size_t index);

void write_variant_set(const NightPlan& plan, const std::string& night_folder, size_t index);

// The record of a variant's film after some passes.
FilmRecord make_variant_record(const LoadedSet& set,
                               const RenderOptions& options,
                               const RenderResult& result);

// Writes all that is made of a film, and fills in passes, noise and statistics.
void write_variant_film(const RenderFiles& files,
                        FilmRecord film,
                        ExrPacking packing,
                        NightVariantState& state);

// Reads the statistics that were written earlier; null if there are none.
nlohmann::json read_variant_stats(const RenderFiles& files);

}  // namespace dapple
