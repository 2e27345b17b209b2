#include "set/obj_mtl.h"

#include <algorithm>
#include <initializer_list>
#include <unordered_map>

#include "set/obj_paths.h"
#include "set/obj_report.h"
#include "set/obj_text.h"

namespace dapple {

namespace {

std::string lower(std::string_view word) {
    std::string text(word);
    for (char& c : text) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return text;
}

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

std::string_view trim_left(std::string_view text) {
    const size_t first = text.find_first_not_of(" \t\v\f");
    return first == std::string_view::npos ? text.substr(text.size()) : text.substr(first);
}

std::string_view first_word(std::string_view text) {
    return text.substr(0, std::min(text.find_first_of(" \t\v\f"), text.size()));
}

// Takes options off the front of a map's values and leaves its file name. Returns the first one
// that would change the picture, empty if none does.
std::string_view take_map_options(std::string_view& rest) {
    struct Option {
        std::string_view name;
        int least;      // words
        int most;       // further words are taken while they are numbers
        float neutral;  // the value that changes nothing
        bool changes;   // other values change the picture
    };
    static constexpr Option kOptions[] = {
        {"-s", 1, 3, 1, true},
        {"-o", 1, 3, 0, true},
        {"-t", 1, 3, 0, true},
        {"-mm", 2, 2, 0, true},
        {"-clamp", 1, 1, 0, true},
        {"-bm", 1, 1, 0, false},
        {"-blendu", 1, 1, 0, false},
        {"-blendv", 1, 1, 0, false},
        {"-boost", 1, 1, 0, false},
        {"-cc", 1, 1, 0, false},
        {"-imfchan", 1, 1, 0, false},
        {"-texres", 1, 1, 0, false},
        {"-type", 1, 1, 0, false},
        {"-colorspace", 1, 1, 0, false},
    };
    std::string_view changing;
    while (true) {
        const std::string_view word = first_word(rest);
        const std::string name = lower(word);
        const auto* option = std::find_if(
            std::begin(kOptions), std::end(kOptions), [&](auto& o) { return o.name == name; });
        if (option == std::end(kOptions)) return changing;
        rest = trim_left(rest.substr(word.size()));
        for (int i = 0; i < option->most; ++i) {
            const std::string_view value_word = first_word(rest);
            float value = 0;
            const bool is_number = read_number(value_word, value) == nullptr;
            if (i >= option->least && !is_number) break;
            const float neutral = option->name == "-mm" && i == 1 ? 1 : option->neutral;
            const bool is_neutral = is_number ? value == neutral : lower(value_word) == "off";
            if (option->changes && !is_neutral && changing.empty()) changing = word;
            rest = trim_left(rest.substr(value_word.size()));
        }
    }
}

class MtlReader {
  public:
    MtlReader(std::string_view text,
              const std::string& path,
              std::vector<MtlDescription>& materials,
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
    void note_what_was_left_out();

    Place place_of(std::string_view word) const {
        return report_.place(scanner_.line(), scanner_.column(word));
    }

    ObjScanner scanner_;
    ObjReport report_;
    std::vector<MtlDescription>& materials_;
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
    note_what_was_left_out();
    report_.finish();
}

void MtlReader::read_statement(std::string_view word) {
    const std::string key = lower(word.substr(0, 32));
    if (key == "newmtl") return read_material_name(word);
    const bool is_read = is_one_of(key, {"kd", "d", "tr", "map_kd", "map_d", "ke"});
    if (is_read && !has_material_) {
        report_.problem(place_of(word), std::string(word), "stands before any newmtl");
        return;
    }
    if (key == "kd") return read_colour(word);
    if (key == "d") return read_opacity(word, false);
    if (key == "tr") return read_opacity(word, true);
    if (key == "ke") return note_light(word);
    if (key == "map_kd") {
        MtlDescription& material = materials_.back();
        return read_map(word, material.diffuse_map, material.diffuse_map_place);
    }
    if (key == "map_d") {
        MtlDescription& material = materials_.back();
        return read_map(word, material.opacity_map, material.opacity_map_place);
    }
    const bool is_map =
        key.starts_with("map_") || is_one_of(key, {"bump", "disp", "decal", "refl", "norm"});
    const bool is_shine = is_one_of(key,
                                    {"ka",
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
                                     "xf"});
    if (is_map) {
        other_maps_.add(scanner_.line(), scanner_.column(word), word);
    } else if (!is_shine) {
        unknown_.add(scanner_.line(), scanner_.column(word), word);
    }
}

void MtlReader::read_material_name(std::string_view word) {
    finish_material();
    const Place keyword_place = place_of(word);
    const std::string_view name = scanner_.rest_of_line();
    if (name.empty()) report_.problem(keyword_place, "newmtl", "has no name");
    MtlDescription material;
    material.name = name;
    material.place = name.empty() ? keyword_place : place_of(name);
    materials_.push_back(std::move(material));
    has_material_ = true;
    has_colour_ = has_opacity_ = false;
}

// The map's colour is multiplied by Kd, so with a map and no Kd the map alone counts.
void MtlReader::finish_material() {
    if (!has_material_) return;
    MtlDescription& material = materials_.back();
    if (material.diffuse_map.empty()) return;
    if (!has_colour_) material.diffuse = {1, 1, 1};
    if (has_colour_ && material.diffuse == std::array<float, 3>{0, 0, 0}) {
        report_.note(material.diffuse_map_place, "map_Kd", "shows black, because Kd is 0 0 0");
    }
}

bool MtlReader::read_value(std::string_view key, std::string_view word, float& value) {
    if (const char* trouble = read_number(word, value)) {
        report_.problem(place_of(word), std::string(key), quoted(word) + " " + trouble);
        return false;
    }
    if (value < 0 || value > 1) {
        report_.note(place_of(word),
                     std::string(key),
                     "is " + std::string(word.substr(0, 32)) + "; taken as the nearest of 0 to 1");
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
        if (count == 0 && is_one_of(lower(value.substr(0, 8)), {"xyz", "spectral"})) {
            report_.note(
                place_of(value), "Kd", "is given as " + quoted(value) + "; only r g b is read");
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

// Where both are given, d counts: files that carry both do not agree on what Tr means.
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
    if (rest.empty()) return;  // exporters leave the key without a name
    const Place line_place = place_of(rest);
    const std::string_view option = take_map_options(rest);
    if (rest.empty()) {
        report_.problem(line_place, std::string(word), "has options but no file name");
        return;
    }
    if (!option.empty()) {
        report_.note(
            place_of(option),
            std::string(word),
            "option " + std::string(option) + " is not followed; the map is used as it is");
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

void MtlReader::note_what_was_left_out() {
    const auto note = [this](const Tally& tally, const std::string& key, const std::string& what) {
        if (tally.count == 0) return;
        const std::string more =
            tally.count > 1 ? " (" + std::to_string(tally.count) + " lines like this)" : "";
        report_.note(report_.place(tally.line, tally.column), key, what + more);
    };
    note(other_maps_, "", quoted(other_maps_.word) + " is not used; only map_Kd and map_d are");
    note(light_, "Ke", "surfaces of a model give no light; light comes from fixtures");
    note(unknown_, "", quoted(unknown_.word) + " is not an MTL statement; passed over");
}

}  // namespace

void read_mtl(const std::string& path, std::vector<MtlDescription>& materials, Problems& problems) {
    TextFile file;
    if (read_text_file(path, problems, file)) {
        read_mtl_text(file.text(), path, materials, problems);
    }
}

void read_mtl_text(std::string_view text,
                   const std::string& path,
                   std::vector<MtlDescription>& materials,
                   Problems& problems) {
    MtlReader(text, path, materials, problems).read();
}

void find_maps(std::vector<MtlDescription>& materials,
               const std::vector<bool>& is_used,
               Problems& problems) {
    std::unordered_map<std::string, ObjReport> reports;  // by MTL file
    const auto find = [&](std::string& map, const Place& place, const char* key, bool used) {
        if (map.empty()) return;
        const std::string folder = folder_of(place.file);
        const std::string found = find_named_file(folder, map);
        if (found.empty() && used) {
            ObjReport& report = reports.try_emplace(place.file, place.file, problems).first->second;
            report.problem(place, key, "no such file: " + quoted(named_path(folder, map)));
        }
        map = found;
    };
    for (size_t i = 0; i < materials.size(); ++i) {
        MtlDescription& material = materials[i];
        find(material.diffuse_map, material.diffuse_map_place, "map_Kd", is_used[i]);
        find(material.opacity_map, material.opacity_map_place, "map_d", is_used[i]);
    }
    for (auto& [file, report] : reports) report.finish();
}

}  // namespace dapple
