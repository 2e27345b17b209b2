// The files of `dapple render`: the picture, the linear EXR, the statistics and the kept passes.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "clean/clean_film.h"
#include "develop/film_record.h"
#include "film/checkpoint.h"
#include "render/render_frame.h"

namespace dapple {

// Where the results of one set go.
struct RenderFiles {
    std::string exr, png, mask, stats, csv, passes;

    RenderFiles(const std::string& folder, const std::string& stem);
};

// Throws if any result could not be written. Called before hours of work, not after.
void check_writable(const std::string& folder, const RenderFiles& files);

// The clean frame of a result, with the exposure of the scene's camera.
CleanFrame clean_frame_of(const RenderResult& result, const Scene& scene, bool with_layers = false);

// The picture of a set: the clean frame, or with --raw the film as measured.
struct PictureFile {
    std::string path;
    bool raw = false;

    // `glare` may have nothing in it.
    void write(const RenderResult& result,
               const CleanFrame& clean,
               const Camera& camera,
               const GlareFrame& glare) const;
};

// Tells which layers of the EXR have light beyond the range of 16 bits.
void note_bright_layers(const std::vector<std::string>& layers);

// The passes of an earlier run of the same set and options, if they were kept. Throws FileError if
// the file holds passes of something else. A damaged file is set aside, and that is told.
std::optional<Checkpoint> read_kept_passes(const std::string& path, uint64_t fingerprint);
void write_kept_passes(const std::string& path,
                       const FilmState& frame,
                       const FilmState& meters,
                       uint64_t fingerprint);
void write_kept_passes(const std::string& path, const RenderResult& result, uint64_t fingerprint);

}  // namespace dapple
