#include "set/ply/read_ply.h"

#include <algorithm>
#include <filesystem>

#include "base/large_memory.h"
#include "set/models/find_pictures.h"
#include "set/models/vertex_colours.h"
#include "set/ply/ply_faces.h"
#include "set/ply/ply_values.h"
#include "set/text_file.h"

namespace dapple {

namespace {

enum VertexValue { kX, kY, kZ, kNx, kNy, kNz, kRed, kGreen, kBlue, kU, kV, kVertexValues };

struct VertexName {
    std::string_view name;
    VertexValue value;
};
constexpr VertexName kVertexNames[] = {{"x", kX},
                                       {"y", kY},
                                       {"z", kZ},
                                       {"nx", kNx},
                                       {"ny", kNy},
                                       {"nz", kNz},
                                       {"red", kRed},
                                       {"green", kGreen},
                                       {"blue", kBlue},
                                       {"r", kRed},
                                       {"g", kGreen},
                                       {"b", kBlue},
                                       {"diffuse_red", kRed},
                                       {"diffuse_green", kGreen},
                                       {"diffuse_blue", kBlue},
                                       {"s", kU},
                                       {"t", kV},
                                       {"u", kU},
                                       {"v", kV},
                                       {"texture_u", kU},
                                       {"texture_v", kV}};

enum class Meaning { kUnused, kCorners, kUvs, kPicture };

Meaning meaning_of(const PlyProperty& property) {
    const bool is_list = property.count_type.has_value();
    if (is_list && (property.name == "vertex_indices" || property.name == "vertex_index")) {
        return Meaning::kCorners;
    }
    if (is_list && property.name == "texcoord") return Meaning::kUvs;
    return !is_list && property.name == "texnumber" ? Meaning::kPicture : Meaning::kUnused;
}

// Codes of whole numbers as shares of their largest.
double unit_of(PlyType type) {
    return type == PlyType::kUint8 ? 1.0 / 255 : type == PlyType::kUint16 ? 1.0 / 65535 : 1.0;
}

class PlyReader {
  public:
    PlyReader(std::string_view bytes,
              const PlyHeader& header,
              const std::string& path,
              ModelParts parts,
              Problems& problems)
        : header_(header),
          values_(bytes, header),
          parts_(parts),
          problems_(problems),
          report_(path, problems) {
        model_.path = path;
    }

    ModelDescription read() {
        if (parts_ == ModelParts::kAll) make_materials();
        const bool whole = std::all_of(header_.elements.begin(),
                                       header_.elements.end(),
                                       [&](const PlyElement& element) { return read(element); });
        if (whole && model_.triangles.empty() && !report_.has_problems()) {
            report_.problem(report_.place(0, 0), "", why_no_triangles());
        }
        if (report_.has_problems()) model_.triangles.clear();
        if (parts_ == ModelParts::kAll) {
            find_pictures(model_, problems_);
            colours_.give_to(model_);
        }
        report_.finish();
        return std::move(model_);
    }

  private:
    bool read(const PlyElement& element) {
        if (element.name == "vertex") return read_vertices(element);
        const bool strips = element.name == "tristrips";
        if (element.name == "face" || strips) return read_faces(element, strips);
        return skip(element);
    }

    // Reads a value, or reports why there is none.
    bool next(const PlyElement& element, int64_t row, PlyType type, double& value) {
        if (values_.next(type, value)) return true;
        const std::string_view word = values_.bad_word();
        const std::string where = element.name + " " + std::to_string(row + 1);
        report_.problem(report_.place(values_.line(), 0),
                        "",
                        word.empty() ? "the file ends in " + where + " of " +
                                           std::to_string(element.count) + "; it is cut off"
                                     : in_quotes(word) + " in " + where + " is not a number");
        return false;
    }

    bool next_list(const PlyElement& element,
                   int64_t row,
                   const PlyProperty& property,
                   std::vector<double>& list) {
        double count = 1;
        if (property.count_type && !next(element, row, *property.count_type, count)) return false;
        const double most = std::min(kLongestList, static_cast<double>(values_.bytes_left()) + 1);
        if (!(count >= 0 && count <= most) || count != std::floor(count)) {
            report_.problem(
                report_.place(values_.line(), 0),
                "",
                "a list of " + element.name + " " + std::to_string(row + 1) +
                    " has a wrong count; must be a whole number from 0, and the file long enough");
            return false;
        }
        list.resize(static_cast<size_t>(count));
        return std::all_of(list.begin(), list.end(), [&](double& value) {
            return next(element, row, property.type, value);
        });
    }

    bool read_vertices(const PlyElement& element);
    bool read_faces(const PlyElement& element, bool strips);
    bool skip(const PlyElement& element);
    void make_materials();
    std::string why_no_triangles() const;

    static constexpr double kLongestList = 10'000'000;  // a strip may be the whole model

    const PlyHeader& header_;
    PlyValues values_;
    ModelParts parts_;
    Problems& problems_;
    ModelReport report_;
    ModelDescription model_;
    VertexColours colours_;
    bool uvs_of_vertices_ = false;
};

bool PlyReader::read_vertices(const PlyElement& element) {
    std::array<bool, kVertexValues> has{};
    std::vector<int> target(element.properties.size(), -1);  // index into a row
    for (size_t i = 0; i < target.size(); ++i) {
        for (const VertexName& known : kVertexNames) {
            if (element.properties[i].name != known.name) continue;
            if (element.properties[i].count_type || has[known.value]) continue;
            target[i] = known.value;
            has[known.value] = true;
        }
    }
    if (!has[kX] || !has[kY] || !has[kZ]) {
        report_.problem(report_.place(element.line, 0), "", "the vertices have no x, y and z");
        return false;
    }
    const auto count = static_cast<size_t>(element.count);
    reserve_large(model_.positions, count);
    if (has[kNx] && has[kNy] && has[kNz]) reserve_large(model_.normals, count);
    uvs_of_vertices_ = has[kU] && has[kV];
    std::vector<double> list;
    for (int64_t row = 0; row < element.count; ++row) {
        std::array<double, kVertexValues> v{};
        for (size_t i = 0; i < target.size(); ++i) {
            const PlyProperty& property = element.properties[i];
            if (!next_list(element, row, property, list)) return false;
            if (target[i] < 0) continue;
            const bool is_colour = target[i] >= kRed && target[i] <= kBlue;
            v[static_cast<size_t>(target[i])] =
                is_colour ? list[0] * unit_of(property.type) : list[0];
        }
        const auto f = [&](VertexValue value) { return static_cast<float>(v[value]); };
        model_.positions.push_back({v[kX], v[kY], v[kZ]});
        if (has[kNx] && has[kNy] && has[kNz]) model_.normals.push_back({f(kNx), f(kNy), f(kNz)});
        if (uvs_of_vertices_) model_.uvs.push_back({f(kU), f(kV)});
        if (has[kRed] && has[kGreen] && has[kBlue]) {
            colours_.add(model_.positions.size() - 1, {f(kRed), f(kGreen), f(kBlue)});
        }
    }
    return true;
}

bool PlyReader::read_faces(const PlyElement& element, bool strips) {
    if (model_.positions.empty()) {
        report_.problem(report_.place(element.line, 0), "", "has no vertices above its faces");
        return false;
    }
    std::vector<Meaning> meanings;
    for (const PlyProperty& property : element.properties) meanings.push_back(meaning_of(property));
    if (!strips) reserve_large(model_.triangles, static_cast<size_t>(element.count));
    PlyFaces faces(model_, uvs_of_vertices_, report_);
    PlyFaces::Row row;
    std::vector<double> other;
    for (int64_t i = 0; i < element.count && !meanings.empty(); ++i) {
        row.uvs.clear();
        row.corners.clear();
        row.number = i + 1;
        for (size_t k = 0; k < meanings.size(); ++k) {
            std::vector<double>& list = meanings[k] == Meaning::kCorners ? row.corners
                                        : meanings[k] == Meaning::kUvs   ? row.uvs
                                                                         : other;
            if (!next_list(element, i, element.properties[k], list)) return false;
            if (meanings[k] == Meaning::kPicture) row.picture = other[0];
        }
        row.line = values_.line();
        if (!strips && row.corners.size() > size_t{kMaxCorners}) {
            report_.problem(report_.place(row.line, 0),
                            "face",
                            "number " + std::to_string(row.number) + " has more than " +
                                std::to_string(kMaxCorners) +
                                " corners, the most that a face may have",
                            {"corners", "faces"});
        } else {
            strips ? faces.add_strips(row) : faces.add_face(row);
        }
    }
    return true;
}

bool PlyReader::skip(const PlyElement& element) {
    std::vector<double> list;
    for (int64_t row = 0; row < element.count && !element.properties.empty(); ++row) {
        for (const PlyProperty& property : element.properties) {
            if (!next_list(element, row, property, list)) return false;
        }
    }
    return true;
}

void PlyReader::make_materials() {
    const std::string stem = std::filesystem::path(model_.path).stem().string();
    const size_t count = std::max<size_t>(1, header_.textures.size());
    for (size_t i = 0; i < count; ++i) {
        ModelMaterial material;
        material.name = count == 1 ? stem : stem + " " + std::to_string(i + 1);
        material.place = {model_.path};
        if (i < header_.textures.size()) {
            const PlyTexture& texture = header_.textures[i];
            material.diffuse = {1, 1, 1};
            material.diffuse_map = {texture.file, nullptr, texture.place, "TextureFile"};
        }
        model_.materials.push_back(std::move(material));
    }
}

std::string PlyReader::why_no_triangles() const {
    const size_t count = model_.positions.size();
    if (count == 0) return "has no faces";
    return "has no faces with an area, only " + std::to_string(count) +
           " vertices; of a cloud of points make a mesh first";
}

}  // namespace

ModelDescription read_ply(const std::string& path, Problems& problems, ModelParts parts) {
    TextFile file;
    if (read_whole_file(path, problems, file)) {
        return read_ply_bytes(file.text(), path, problems, parts);
    }
    ModelDescription nothing;
    nothing.path = path;
    return nothing;
}

ModelDescription read_ply_bytes(std::string_view bytes,
                                const std::string& path,
                                Problems& problems,
                                ModelParts parts) {
    const std::optional<PlyHeader> header = read_ply_header(bytes, path, problems);
    if (header) return PlyReader(bytes, *header, path, parts, problems).read();
    ModelDescription nothing;
    nothing.path = path;
    return nothing;
}

}  // namespace dapple
