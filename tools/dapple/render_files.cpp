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

CleanFrame clean_frame_of(const RenderResult& result, const Scene& scene, bool with_layers) {
    return clean_film(result.film, result.seen, white_luminance(scene.camera), with_layers);
}

void PictureFile::write(const RenderResult& result,
                        const CleanFrame& clean,
                        const Camera& camera,
                        const GlareFrame& glare) const {
    Picture linear = raw ? develop_linear(result.film, camera) : develop_linear(clean, camera);
    add_glare(glare, camera, linear);
    write_png(path, develop_display(linear));
}

void note_bright_layers(const std::vector<std::string>& layers) {
    if (layers.empty()) return;
    std::string names;
    for (const std::string& layer : layers) names += (names.empty() ? "" : ", ") + layer;
    std::cerr << "note: brighter than 16 bits can hold, so stored with 32: " << names << '\n';
}

std::optional<Checkpoint> read_kept_passes(const std::string& path, uint64_t fingerprint) {
    std::ifstream file(path, std::ios::binary);
    if (!file) return std::nullopt;
    std::variant<Checkpoint, NoCheckpoint> found = read_checkpoint(file, fingerprint);
    if (auto* state = std::get_if<Checkpoint>(&found)) return std::move(*state);
    if (std::get<NoCheckpoint>(found) == NoCheckpoint::kOther) {
        throw FileError(path,
                        "holds passes of another set, size, seed or version, or the set or a model "
                        "was edited; remove it, or give another folder with -o");
    }
    const std::string aside = path + ".damaged";
    std::filesystem::rename(path, aside);
    std::cerr << "note: " << path << ": is damaged; it is now " << aside
              << ", and the passes start anew\n";
    return std::nullopt;
}

void write_kept_passes(const std::string& path, const RenderResult& result, uint64_t fingerprint) {
    write_kept_passes(path, result.film.state(), result.meters.state(), fingerprint);
}

void write_kept_passes(const std::string& path,
                       const FilmState& frame,
                       const FilmState& meters,
                       uint64_t fingerprint) {
    SafeFile file(path);
    int64_t offset = 0;
    const auto write = [&](const void* data, size_t size) {
        file.write_at(data, size, offset);
        offset += static_cast<int64_t>(size);
    };
    write_checkpoint(frame, meters, fingerprint, write);
    file.commit();
}

}  // namespace dapple
