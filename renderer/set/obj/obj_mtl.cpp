#include "set/obj/obj_mtl.h"

#include <algorithm>
#include <unordered_map>

#include "set/obj/obj_map_options.h"
#include "set/models/named_files.h"
#include "set/models/model_report.h"
#include "set/obj/obj_text.h"
#include "set/text_file.h"

namespace dapple {

namespace {

constexpr std::string_view kRead[] = {"kd", "d", "tr", "map_kd", "map_d", "ke"};  // and newmtl

// Maps that are not used, besides all others that start with map_.
constexpr std::string_view kOtherMaps[] = {"bump", "disp", "decal", "refl", "norm"};

// Gloss and how a viewer draws it.
constexpr std::string_view kGloss[] = {"ka",
                                       "ks",
                                       "ns",
                                       "ni",
                                       "illum",
                                       "tf",
                                       "sharpness",
                                       "pr",
                                       "pm",
                                       "ps",
                                       "pc",
                                       "pcr",
                                       "aniso",
                                       "anisor",
                                       "km",
                                       "xf"};

constexpr std::string_view kOtherColours[] = {"xyz", "spectral"};

class MtlReader {
  public:
    MtlReader(std::string_view text,
              const std::string& path,
              std::vector<ModelMaterial>& materials,
              Problems& problems)
        : scanner_(text), report_(path, problems), materials_(materials) {}

    void read();

  private:
    void read_statement(std::string_view word);
    void read_material_name(std::string_view word);
    void read_colour(std::string_view word);
    void read_opacity(std::string_view word, bool is_transparency);
    void read_map(std::string_view word, std::string& name, Place& place);
    void note_light(std::string_view word);
    bool read_value(std::string_view key, std::string_view word, float& value);
    void finish_material();
    void note_ignored();

    Place place_of(std::string_view word) const { return report_.place_of(scanner_, word); }

    ObjScanner scanner_;
    ModelReport report_;
    std::vector<ModelMaterial>& materials_;
    bool has_material_ = false;
    bool has_colour_ = false;
    bool has_opacity_ = false;
    Tally other_maps_;
    Tally light_;
    Tally unknown_;
};

void MtlReader::read() {
    std::string_view word;
    while (scanner_.next_statement(word)) read_statement(word);
    finish_material();
    note_ignored();
    report_.finish();
}

void MtlReader::read_statement(std::string_view word) {
    const std::string key = lower_case(word.substr(0, 32));
    if (key == "newmtl") return read_material_name(word);
    if (is_one_of(key, kRead) && !has_material_) {
        report_.problem(
            place_of(word), std::string(word), "is above the first newmtl; must be below one");
        return;
    }
    if (key == "kd") return read_colour(word);
    if (key == "d") return read_opacity(word, false);
    if (key == "tr") return read_opacity(word, true);
    if (key == "ke") return note_light(word);
    if (key == "map_kd") {
        ModelMaterial& material = materials_.back();
        return read_map(word, material.diffuse_map, material.diffuse_map_place);
    }
    if (key == "map_d") {
        ModelMaterial& material = materials_.back();
        return read_map(word, material.opacity_map, material.opacity_map_place);
    }
    if (key.starts_with("map_") || is_one_of(key, kOtherMaps)) {
        other_maps_.add(scanner_.line(), scanner_.column(word), word);
    } else if (!is_one_of(key, kGloss)) {
        unknown_.add(scanner_.line(), scanner_.column(word), word);
    }
}

void MtlReader::read_material_name(std::string_view word) {
    finish_material();
    const Place keyword_place = place_of(word);
    const std::string_view name = scanner_.rest_of_line();
    if (name.empty()) report_.problem(keyword_place, "newmtl", "has no name");
    ModelMaterial material;
    material.name = name;
    material.place = name.empty() ? keyword_place : place_of(name);
    materials_.push_back(std::move(material));
    has_material_ = true;
    has_colour_ = has_opacity_ = false;
}

// The map's colour is multiplied by Kd, so a material with a map and no Kd gets a Kd of 1.
void MtlReader::finish_material() {
    if (!has_material_) return;
    ModelMaterial& material = materials_.back();
    if (material.opacity == 0 && material.opacity_map.empty()) {
        report_.note(
            material.place, "newmtl", in_quotes(material.name) + " is invisible: its opacity is 0");
    }
    if (material.diffuse_map.empty()) return;
    if (!has_colour_) material.diffuse = {1, 1, 1};
    if (has_colour_ && material.diffuse == std::array<float, 3>{0, 0, 0}) {
        report_.note(material.diffuse_map_place, "map_Kd", "is black, because Kd is 0 0 0");
    }
}

bool MtlReader::read_value(std::string_view key, std::string_view word, float& value) {
    if (const char* trouble = read_number(word, value)) {
        report_.problem(place_of(word), std::string(key), in_quotes(word) + " " + trouble);
        return false;
    }
    if (value < 0 || value > 1) {
        report_.note(
            place_of(word),
            std::string(key),
            "is " + std::string(word.substr(0, 32)) + "; must be from 0 to 1; the nearest is used");
        value = std::clamp(value, 0.0F, 1.0F);
    }
    return true;
}

void MtlReader::read_colour(std::string_view word) {
    const Place keyword_place = place_of(word);
    std::array<float, 3> colour{};
    size_t count = 0;
    for (; count < 3; ++count) {
        const std::string_view value = scanner_.next_word();
        if (value.empty()) break;
        if (count == 0 && is_one_of(lower_case(value.substr(0, 8)), kOtherColours)) {
            report_.note(place_of(value),
                         "Kd",
                         "is given as " + in_quotes(value) + "; must be r g b; ignored");
            return;
        }
        if (!read_value(word, value, colour[count])) return;
    }
    if (count == 1) {
        colour[1] = colour[2] = colour[0];
    } else if (count != 3) {
        report_.problem(keyword_place,
                        std::string(word),
                        "has " + std::to_string(count) + " numbers; needs 3 (r g b) or 1 (grey)");
        return;
    }
    materials_.back().diffuse = colour;
    has_colour_ = true;
}

// If a material has both d and Tr, d is used: files with both differ in what they mean by Tr.
void MtlReader::read_opacity(std::string_view word, bool is_transparency) {
    const Place keyword_place = place_of(word);
    std::string_view value_word = scanner_.next_word();
    if (value_word == "-halo") value_word = scanner_.next_word();
    float value = 1;
    if (value_word.empty()) {
        report_.problem(keyword_place, std::string(word), "has no number; needs 0 to 1");
        return;
    }
    if (!read_value(word, value_word, value)) return;
    if (is_transparency && has_opacity_) return;
    materials_.back().opacity = is_transparency ? 1 - value : value;
    has_opacity_ = !is_transparency;
}

void MtlReader::read_map(std::string_view word, std::string& name, Place& place) {
    std::string_view rest = scanner_.rest_of_line();
    if (rest.empty()) return;  // some exporters write the key without a name
    const Place line_place = place_of(rest);
    const std::string_view option = take_map_options(rest);
    if (rest.empty()) {
        report_.problem(line_place, std::string(word), "has options but no file name");
        return;
    }
    if (!option.empty()) {
        report_.note(place_of(option),
                     std::string(word),
                     "option " + std::string(option) + " is ignored; the map is used without it");
    }
    name = rest;
    place = place_of(rest);
}

void MtlReader::note_light(std::string_view word) {
    const int column = scanner_.column(word);
    const int line = scanner_.line();
    for (std::string_view value = scanner_.next_word(); !value.empty();
         value = scanner_.next_word()) {
        float number = 0;
        if (read_number(value, number) == nullptr && number > 0) {
            light_.add(line, column);
            return;
        }
    }
}

void MtlReader::note_ignored() {
    report_.note(other_maps_,
                 "",
                 in_quotes(other_maps_.word) + " is ignored; only map_Kd and map_d are used");
    report_.note(light_, "Ke", "is ignored; surfaces of a model give no light, only fixtures do");
    report_.note(unknown_, "", in_quotes(unknown_.word) + " is not an MTL statement; ignored");
}

}  // namespace

void read_mtl(const std::string& path, std::vector<ModelMaterial>& materials, Problems& problems) {
    TextFile file;
    if (read_text_file(path, problems, file)) {
        read_mtl_text(file.text(), path, materials, problems);
    }
}

void read_mtl_text(std::string_view text,
                   const std::string& path,
                   std::vector<ModelMaterial>& materials,
                   Problems& problems) {
    MtlReader(text, path, materials, problems).read();
}

void find_maps(std::vector<ModelMaterial>& materials,
               const std::vector<bool>& is_used,
               Problems& problems) {
    std::unordered_map<std::string, ModelReport> reports;  // by MTL file
    const auto find = [&](std::string& map, const Place& place, const char* key, bool used) {
        if (map.empty()) return;
        const std::string folder = folder_of(place.file);
        const std::string found = find_named_file(folder, map);
        if (found.empty() && used) {
            ModelReport& report = reports.try_emplace(place.file, place.file, problems).first->second;
            report.problem(place, key, "no such file: " + in_quotes(named_path(folder, map)));
        }
        map = found;
    };
    for (size_t i = 0; i < materials.size(); ++i) {
        ModelMaterial& material = materials[i];
        find(material.diffuse_map, material.diffuse_map_place, "map_Kd", is_used[i]);
        find(material.opacity_map, material.opacity_map_place, "map_d", is_used[i]);
    }
    for (auto& [file, report] : reports) report.finish();
}

}  // namespace dapple
