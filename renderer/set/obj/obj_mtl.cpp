#include "set/obj/obj_mtl.h"

#include <algorithm>
#include <optional>

#include "set/models/model_report.h"
#include "set/obj/obj_map_options.h"
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
    void read_map(std::string_view word, ModelPicture& picture);
    void note_light(std::string_view word);
    bool read_value(std::string_view key, std::string_view word, float& value);
    void finish_material();

    Place place_of(std::string_view word) const { return report_.place_of(scanner_, word); }

    ObjScanner scanner_;
    ModelReport report_;
    std::vector<ModelMaterial>& materials_;
    bool has_material_ = false;
    bool has_colour_ = false;
    bool has_opacity_ = false;   // by d
    std::optional<Place> tr_1_;  // of a Tr 1
};

void MtlReader::read() {
    std::string_view word;
    while (scanner_.next_statement(word)) read_statement(word);
    finish_material();
    report_.finish();
}

void MtlReader::read_statement(std::string_view word) {
    const std::string key = lower_case(word.substr(0, 32));
    if (key == "newmtl") return read_material_name(word);
    if (is_one_of(key, kRead) && !has_material_) {
        report_.problem(place_of(word),
                        std::string(word),
                        "is above the first newmtl; must be below one",
                        {"above"});
        return;
    }
    if (key == "kd") return read_colour(word);
    if (key == "d") return read_opacity(word, false);
    if (key == "tr") return read_opacity(word, true);
    if (key == "ke") return note_light(word);
    if (key == "map_kd") return read_map(word, materials_.back().diffuse_map);
    if (key == "map_d") return read_map(word, materials_.back().opacity_map);
    if (key.starts_with("map_") || is_one_of(key, kOtherMaps)) {
        report_.note(place_of(word),
                     "",
                     in_quotes(word) + " is ignored; only map_Kd and map_d are used",
                     {"other maps"});
    } else if (!is_one_of(key, kGloss)) {
        report_.note(
            place_of(word), "", in_quotes(word) + " is not an MTL statement; ignored", {"unknown"});
    }
}

void MtlReader::read_material_name(std::string_view word) {
    finish_material();
    const Place keyword_place = place_of(word);
    const std::string_view name = scanner_.rest_of_line();
    if (name.empty()) {
        report_.note(keyword_place, "newmtl", "has no name; a [[surface]] cannot change it");
    }
    ModelMaterial material;
    material.name = name;
    material.place = name.empty() ? keyword_place : place_of(name);
    materials_.push_back(std::move(material));
    has_material_ = true;
    has_colour_ = has_opacity_ = false;
    tr_1_.reset();
}

// The map's colour is multiplied by Kd, so a material with a map and no Kd gets a Kd of 1. Many
// exporters write a black Kd beside a map and mean the map alone.
void MtlReader::finish_material() {
    if (!has_material_) return;
    ModelMaterial& material = materials_.back();
    if (material.opacity == 0 && material.opacity_map.empty()) {
        report_.note(material.place,
                     "newmtl",
                     in_quotes(material.name) + " is invisible: its opacity is 0",
                     {"invisible", "materials"});
    }
    if (tr_1_ && !has_opacity_) {
        report_.note(
            *tr_1_, "Tr", "is 1 without a d; read as opaque (invisible is d 0)", {"", "materials"});
    }
    const bool is_black = material.diffuse == std::array<float, 3>{0, 0, 0};
    if (!material.diffuse_map.empty() && (!has_colour_ || is_black)) material.diffuse = {1, 1, 1};
}

bool MtlReader::read_value(std::string_view key, std::string_view word, float& value) {
    if (const char* trouble = read_number(word, value)) {
        report_.problem(
            place_of(word), std::string(key), in_quotes(word) + " " + trouble, {trouble});
        return false;
    }
    if (value < 0 || value > 1) {
        report_.note(
            place_of(word),
            std::string(key),
            "is " + std::string(word.substr(0, 32)) + "; must be from 0 to 1; the nearest is used",
            {"range"});
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
                         "is given as " + in_quotes(value) + "; must be r g b; ignored",
                         {"kind of colour"});
            return;
        }
        if (!read_value(word, value, colour[count])) return;
    }
    if (count == 1) {
        colour[1] = colour[2] = colour[0];
    } else if (count != 3) {
        report_.problem(keyword_place,
                        std::string(word),
                        "has " + std::to_string(count) + " numbers; needs 3 (r g b) or 1 (grey)",
                        {"count"});
        return;
    }
    materials_.back().diffuse = colour;
    has_colour_ = true;
}

// If a material has both d and Tr, d is used: files with both differ in what they mean by Tr. Tr 1
// alone is opaque: common exporters write that, and nobody models what cannot be seen.
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
    if (is_transparency && value == 1) {
        tr_1_ = keyword_place;
        return;
    }
    materials_.back().opacity = is_transparency ? 1 - value : value;
    has_opacity_ = !is_transparency;
}

void MtlReader::read_map(std::string_view word, ModelPicture& picture) {
    std::string_view rest = scanner_.rest_of_line();
    if (rest.empty()) return;  // some exporters write the key without a name
    const Place line_place = place_of(rest);
    const std::string_view option = take_map_options(rest);
    if (rest.empty()) {
        report_.note(line_place, std::string(word), "has options but no file name; ignored");
        return;
    }
    if (!option.empty()) {
        report_.note(place_of(option),
                     std::string(word),
                     "option " + std::string(option) + " is ignored; the map is used without it",
                     {"option"});
    }
    picture = {std::string(rest), nullptr, place_of(rest), std::string(word)};
}

void MtlReader::note_light(std::string_view word) {
    const Place place = place_of(word);
    for (std::string_view value = scanner_.next_word(); !value.empty();
         value = scanner_.next_word()) {
        float number = 0;
        if (read_number(value, number) == nullptr && number > 0) {
            report_.note(
                place, "Ke", "is ignored; surfaces of a model give no light, only fixtures do");
            return;
        }
    }
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

}  // namespace dapple
