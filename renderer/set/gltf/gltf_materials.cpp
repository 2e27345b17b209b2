#include "set/gltf/gltf_materials.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

class MaterialReader {
  public:
    MaterialReader(const GltfValue& root, GltfBuffers& buffers, const std::string& path)
        : root_(root), buffers_(buffers), path_(path) {}

    ModelMaterial read(const GltfValue& given, GltfPicturePlace& place) const {
        ModelMaterial material;
        material.place = {path_};
        const GltfValue base = given.member("pbrMetallicRoughness");
        const std::vector<double> factor = base.member("baseColorFactor").numbers({1, 1, 1, 1});
        for (size_t i = 0; i < 3; ++i) {
            material.diffuse[i] = static_cast<float>(std::clamp(factor[i], 0.0, 1.0));
        }
        const GltfValue texture = base.member("baseColorTexture");
        if (texture.is_there()) {
            material.diffuse_map = picture(texture);
            place = place_of(texture);
        }
        read_holes(given, std::clamp(factor[3], 0.0, 1.0), material);
        return material;
    }

  private:
    // A material is opaque unless it says otherwise, whatever its alpha is.
    static void read_holes(const GltfValue& given, double alpha, ModelMaterial& material) {
        const std::string mode = given.member("alphaMode").text("OPAQUE");
        if (mode != "MASK" && mode != "BLEND") return;
        const double cutoff = std::max(0.0, given.member("alphaCutoff").number(0.5));
        const bool is_mask = mode == "MASK";
        material.opacity_map = material.diffuse_map;
        material.opacity_is_alpha = true;
        if (!is_mask) {
            material.opacity = static_cast<float>(alpha);
        } else if (material.opacity_map.empty()) {
            material.opacity = alpha >= cutoff ? 1.0F : 0.0F;
        } else {
            const double least = alpha > 0 ? cutoff / alpha : 2.0;
            material.opacity_cutoff = static_cast<float>(std::min(least, 2.0));
        }
    }

    static GltfPicturePlace place_of(const GltfValue& texture) {
        GltfPicturePlace place;
        place.uv_set = texture.member("texCoord").whole(0);
        const GltfValue moved = texture.member("extensions").member("KHR_texture_transform");
        if (!moved.is_there()) return place;
        const std::vector<double> offset = moved.member("offset").numbers({0, 0});
        const std::vector<double> scale = moved.member("scale").numbers({1, 1});
        place.offset = {offset[0], offset[1]};
        place.scale = {scale[0], scale[1]};
        place.turn = moved.member("rotation").number(0);
        place.uv_set = moved.member("texCoord").whole(place.uv_set);
        return place;
    }

    ModelPicture picture(const GltfValue& use) const {
        const GltfValue texture = use.member("index").in_list(root_, "textures");
        GltfValue source = texture.member("source");
        if (!source.is_there()) {
            source = texture.member("extensions").member("EXT_texture_webp").member("source");
        }
        if (!source.is_there()) return {};
        const GltfValue image = source.in_list(root_, "images");
        ModelPicture picture;
        picture.place = {path_};
        picture.key = image.key();
        const GltfValue uri = image.member("uri");
        std::optional<std::string> bytes;
        if (!uri.is_there()) {
            bytes = std::string(buffers_.view(image.member("bufferView")));
        } else {
            bytes = GltfBuffers::data_of(uri);
        }
        if (bytes) {
            picture.path = path_ + " " + image.key();
            picture.bytes = std::make_shared<const std::string>(std::move(*bytes));
        } else {
            picture.path = file_of_uri(uri);
        }
        return picture;
    }

    GltfValue root_;
    GltfBuffers& buffers_;
    const std::string& path_;
};

// A name of its own for each, so that [[surface]] can name it.
void name_material(const GltfValue& given, GltfMaterials& materials, ModelMaterial& material) {
    const std::string fallback = "material " + std::to_string(materials.list.size() + 1);
    std::string name = given.member("name").text(fallback);
    if (name.empty()) name = fallback;
    const auto is_taken = [&](const std::string& wanted) {
        return std::any_of(materials.list.begin(), materials.list.end(), [&](const auto& other) {
            return other.name == wanted;
        });
    };
    material.name = is_taken(name) ? name + " " + std::to_string(materials.list.size() + 1) : name;
}

}  // namespace

std::array<float, 2> GltfPicturePlace::placed(double u, double v) const {
    const double c = std::cos(turn);
    const double s = std::sin(turn);
    const double x = scale[0] * u;
    const double y = scale[1] * v;
    return {static_cast<float>(offset[0] + c * x + s * y),
            static_cast<float>(1 - (offset[1] - s * x + c * y))};
}

GltfMaterials read_gltf_materials(const GltfValue& root,
                                  GltfBuffers& buffers,
                                  const std::string& path,
                                  ModelReport& report) {
    GltfMaterials materials;
    const MaterialReader reader(root, buffers, path);
    const GltfValue list = root.member("materials");
    for (size_t i = 0; i < list.size(); ++i) {
        const GltfValue given = list.entry(i);
        GltfPicturePlace place;
        ModelMaterial material = reader.read(given, place);
        name_material(given, materials, material);
        const std::vector<double> light = given.member("emissiveFactor").numbers({0, 0, 0});
        if (*std::max_element(light.begin(), light.end()) > 0) {
            report.note({path},
                        "emissiveFactor",
                        "is ignored; surfaces of a model give no light, only fixtures do",
                        {"light", "materials"});
        }
        materials.list.push_back(std::move(material));
        materials.places.push_back(place);
    }
    return materials;
}

}  // namespace dapple
