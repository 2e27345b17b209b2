#include "fingerprint.h"

#include <sstream>

#include "base/random.h"
#include "set/kit.h"

namespace dapple {

namespace {

class Hash {
  public:
    void add(uint64_t value) { state_ = mix_bits(state_, value); }

    void add_bytes(const void* data, size_t size) {
        const auto* bytes = static_cast<const unsigned char*>(data);
        uint64_t word = 0xcbf29ce484222325ULL;  // FNV-1a, mixed in once
        for (size_t i = 0; i < size; ++i) word = (word ^ bytes[i]) * 0x100000001b3ULL;
        add(word);
        add(size);
    }

    template <class T>
    void add_all(const std::vector<T>& values) {
        add_bytes(values.data(), values.size() * sizeof(T));
    }

    uint64_t value() const { return state_; }

  private:
    uint64_t state_ = 0;
};

void add_mesh(Hash& hash, const Mesh& mesh) {
    hash.add_all(mesh.positions);
    hash.add_all(mesh.normals);
    hash.add_all(mesh.uvs);
    hash.add_all(mesh.triangles);
    hash.add_all(mesh.materials);
}

// A kit may have changed since the set was rendered.
void add_kit(Hash& hash, const std::string& set_path) {
    Problems problems;  // reported already when the set was read
    KitShelf shelf(kit_folders(set_path), problems);
    for (const KitEntry& entry : shelf.entries()) {
        std::ostringstream text;
        text << entry.kind << entry.name << *entry.table;
        hash.add_bytes(text.str().data(), text.str().size());
    }
}

// What comes from photometric files and spectra.
void add_lamp_files(Hash& hash, const Fixture& fixture) {
    if (fixture.photometry) {
        hash.add_all(fixture.photometry->polar);
        hash.add_all(fixture.photometry->azimuth);
        hash.add_all(fixture.photometry->candela);
        hash.add_bytes(&fixture.output_value, sizeof fixture.output_value);
        hash.add_bytes(&fixture.source_diameter, sizeof fixture.source_diameter);
        hash.add_bytes(&fixture.panel_size, sizeof fixture.panel_size);
    }
    if (!fixture.gel.spectrum) return;
    for (int i = 0; i < Curve::kSize; ++i) {
        const float value = (*fixture.gel.spectrum)[i];
        hash.add_bytes(&value, sizeof value);
    }
}

}  // namespace

uint64_t fingerprint_of(const std::string& text,
                        const std::string& set_path,
                        const Scene& scene,
                        const RenderOptions& options) {
    Hash hash;
    hash.add_bytes(text.data(), text.size());
    if (text.find("kit") != std::string::npos) add_kit(hash, set_path);
    // The contents of other files: the room, user glass, MTL colours, textures, lamps.
    for (const Mesh& mesh : scene.room) add_mesh(hash, mesh);
    for (const Mesh& mesh : scene.glass_meshes) add_mesh(hash, mesh);
    for (const Material& m : scene.materials) {
        hash.add_bytes(&m.reflectance, sizeof m.reflectance);
        hash.add_bytes(&m.opacity, sizeof m.opacity);
    }
    for (const Texture& texture : scene.textures) hash.add_all(texture.texels);
    for (const Fixture& fixture : scene.fixtures) add_lamp_files(hash, fixture);
    hash.add(static_cast<uint64_t>(scene.camera.width));
    hash.add(options.seed);
    hash.add(static_cast<uint64_t>(options.transport));
    hash.add(static_cast<uint64_t>(options.max_bounces));
    hash.add(static_cast<uint64_t>(options.light_walks_per_pixel * 1024));
    hash.add(static_cast<uint64_t>(options.footprint_px * 1024));
    return hash.value();
}

}  // namespace dapple
