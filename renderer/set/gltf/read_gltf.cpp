#include "set/gltf/read_gltf.h"

#include <algorithm>
#include <cstring>
#include <nlohmann/json.hpp>

#include "set/gltf/gltf_meshes.h"
#include "set/models/find_pictures.h"
#include "set/text_file.h"

namespace dapple {

namespace {

// The two parts of a .glb file; a .gltf file has the text alone.
struct GltfParts {
    std::string_view text, binary;
};

uint32_t word_at(std::string_view bytes, size_t at) {
    uint32_t word = 0;
    std::memcpy(&word, bytes.data() + at, sizeof word);
    return word;
}

// The next chunk of a .glb file of this type, or nothing.
std::string_view take_chunk(std::string_view& rest, uint32_t type) {
    if (rest.size() < 8 || word_at(rest, 4) != type) return {};
    const size_t length = word_at(rest, 0);
    if (length > rest.size() - 8) {
        throw GltfTrouble{"",
                          "is cut off: a part needs " + std::to_string(length) + " bytes, " +
                              std::to_string(rest.size() - 8) + " are there"};
    }
    const std::string_view chunk = rest.substr(8, length);
    rest.remove_prefix(8 + length);
    return chunk;
}

GltfParts split(std::string_view bytes) {
    constexpr uint32_t kJson = 0x4E4F534A;    // "JSON"
    constexpr uint32_t kBinary = 0x004E4942;  // "BIN"
    if (!bytes.starts_with("glTF")) return {bytes, {}};
    if (bytes.size() < 12) throw GltfTrouble{"", "is cut off"};
    if (word_at(bytes, 4) != 2) {
        throw GltfTrouble{"", "is of version " + std::to_string(word_at(bytes, 4)) + "; must be 2"};
    }
    std::string_view rest = bytes.substr(12);
    GltfParts parts;
    parts.text = take_chunk(rest, kJson);
    if (parts.text.empty()) throw GltfTrouble{"", "has no part of JSON"};
    parts.binary = take_chunk(rest, kBinary);
    return parts;
}

nlohmann::json parse(std::string_view text) {
    try {
        return nlohmann::json::parse(text);
    } catch (const nlohmann::json::parse_error& error) {
        const std::string_view before = text.substr(0, std::min(error.byte, text.size()));
        const auto line = 1 + std::count(before.begin(), before.end(), '\n');
        throw GltfTrouble{"",
                          "is not glTF: its JSON has a mistake in line " + std::to_string(line)};
    } catch (const nlohmann::json::exception&) {
        throw GltfTrouble{"", "is not glTF: its JSON has a number that is too large"};
    }
}

// Whether a file that cannot do without this extension can be read.
bool is_read(const std::string& extension) {
    return extension == "KHR_mesh_quantization" || extension == "KHR_texture_transform" ||
           extension == "EXT_texture_webp" || extension == "KHR_lights_punctual" ||
           extension.starts_with("KHR_materials_");
}

void check_asset(const GltfValue& root) {
    const GltfValue version = root.member("asset").member("version");
    if (!version.text("").starts_with("2")) {
        version.fail("is " + in_quotes(version.text("")) + "; must be 2.0");
    }
    const GltfValue required = root.member("extensionsRequired");
    for (size_t i = 0; i < required.size(); ++i) {
        const std::string name = required.entry(i).text("");
        if (is_read(name)) continue;
        const bool packed =
            name == "KHR_draco_mesh_compression" || name == "EXT_meshopt_compression";
        required.fail("has " + in_quotes(name) + ", which is not read; export the model again " +
                      (packed ? "without compression" : "without it"));
    }
}

// Faces without a material are white where their vertices have colours.
void give_bare_faces_colours(ModelDescription& model) {
    if (model.colours.empty()) return;
    model.colours.resize(model.positions.size(), {1, 1, 1});
    ModelMaterial plain;
    plain.name = "no material";
    plain.place = {model.path};
    plain.diffuse = {1, 1, 1};
    plain.vertex_colours = true;
    const auto index = static_cast<int32_t>(model.materials.size());
    bool is_used = false;
    for (ModelTriangle& triangle : model.triangles) {
        if (triangle.material >= 0) continue;
        triangle.material = index;
        is_used = true;
    }
    if (is_used) model.materials.push_back(std::move(plain));
}

void read_parts(const GltfParts& file,
                ModelParts parts,
                ModelDescription& model,
                ModelReport& report) {
    const nlohmann::json json = parse(file.text);
    const GltfValue root(&json, "");
    check_asset(root);
    GltfBuffers buffers(root, file.binary, model.path);
    GltfMaterials materials;
    if (parts == ModelParts::kAll) {
        materials = read_gltf_materials(root, buffers, model.path, report);
    }
    model.materials = std::move(materials.list);
    GltfMeshes meshes(root, buffers, materials.places, model, report);
    for (const GltfInstance& instance : read_gltf_nodes(root)) meshes.add(instance);
    if (parts == ModelParts::kAll) give_bare_faces_colours(model);
}

}  // namespace

ModelDescription read_gltf(const std::string& path, Problems& problems, ModelParts parts) {
    TextFile file;
    if (read_whole_file(path, problems, file)) {
        return read_gltf_bytes(file.text(), path, problems, parts);
    }
    ModelDescription nothing;
    nothing.path = path;
    return nothing;
}

ModelDescription read_gltf_bytes(std::string_view bytes,
                                 const std::string& path,
                                 Problems& problems,
                                 ModelParts parts) {
    ModelDescription model;
    model.path = path;
    ModelReport report(path, problems);
    try {
        read_parts(split(bytes), parts, model, report);
        if (model.triangles.empty() && !report.has_problems()) {
            report.problem(report.place(0, 0), "", "its scene has no triangles");
        }
    } catch (const GltfTrouble& trouble) {
        report.problem(report.place(0, 0), trouble.key, trouble.message);
    }
    if (report.has_problems()) model.triangles.clear();
    if (parts == ModelParts::kAll) find_pictures(model, problems);
    report.finish();
    return model;
}

}  // namespace dapple
