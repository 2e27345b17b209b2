#include "render_files.h"

#include <filesystem>
#include <fstream>
#include <iostream>

#include "develop/develop.h"
#include "develop/exposure.h"
#include "option_checks.h"
#include "output/safe_file.h"
#include "output/write_png.h"

namespace dapple {

RenderFiles::RenderFiles(const std::string& folder, const std::string& stem) {
    const std::filesystem::path base = std::filesystem::path(folder) / stem;
    exr = base.string() + ".exr";
    png = base.string() + ".png";
    mask = base.string() + ".mask.png";
    stats = base.string() + ".stats.json";
    csv = base.string() + ".luminance.csv";
    passes = base.string() + ".passes";
}

void check_writable(const std::string& folder, const RenderFiles& files) {
    check_writable_folder(folder);
    for (const std::string* path :
         {&files.exr, &files.png, &files.mask, &files.stats, &files.csv, &files.passes}) {
        const SafeFile trial(*path);  // removed again; an older file stays as it is
    }
}

CleanFrame clean_frame_of(const RenderResult& result, const Scene& scene) {
    return clean_film(result.film, result.seen, white_luminance(scene.camera));
}

void PictureFile::write(const RenderResult& result,
                        const CleanFrame& clean,
                        const Camera& camera) const {
    write_png(
        path,
        develop_display(raw ? develop_linear(result.film, camera) : develop_linear(clean, camera)));
}

std::optional<Checkpoint> read_kept_passes(const std::string& path, uint64_t fingerprint) {
    std::ifstream file(path, std::ios::binary);
    if (!file) return std::nullopt;
    std::optional<Checkpoint> state = read_checkpoint(file, fingerprint);
    if (state) {
        std::cerr << "continuing after pass " << state->frame.passes << " of " << path << '\n';
    } else {
        std::cerr << "note: " << path << ": is of another set or other options; starting anew\n";
    }
    return state;
}

void write_kept_passes(const std::string& path, const RenderResult& result, uint64_t fingerprint) {
    SafeFile file(path);
    int64_t offset = 0;
    const auto write = [&](const void* data, size_t size) {
        file.write_at(data, size, offset);
        offset += static_cast<int64_t>(size);
    };
    write_checkpoint(result.film.state(), result.meters.state(), fingerprint, write);
    file.commit();
}

}  // namespace dapple
