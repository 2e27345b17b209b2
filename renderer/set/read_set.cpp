#include "set/read_set.h"

#include <cctype>
#include <string_view>

#include "set/kit.h"
#include "set/tables/set_tables.h"
#include "set/toml_text.h"

namespace dapple {

namespace {

// The TOML parser limits nested values, but it destroys nested tables by recursion: a dotted key of
// about 30,000 parts would overflow the stack. Real set files have far fewer dots.
constexpr size_t kMaxKeyDots = 2000;

// Whether a dot may separate parts of a key: every dot may, except the decimal point in "1.5".
bool is_key_dot(std::string_view text, size_t dot) {
    const auto digit = [&](size_t i) {
        return i < text.size() && std::isdigit(static_cast<unsigned char>(text[i])) != 0;
    };
    if (dot == 0 || !digit(dot - 1) || !digit(dot + 1)) return true;
    size_t first = dot;
    while (first > 0 && digit(first - 1)) --first;
    return first > 0 && text[first - 1] == '.';
}

// The line in which the text exceeds kMaxKeyDots; 0: it does not.
int line_of_too_many_dots(std::string_view text) {
    size_t dots = 0;
    int line = 1;
    for (size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\n') ++line;
        if (text[i] == '.' && is_key_dot(text, i) && ++dots > kMaxKeyDots) return line;
    }
    return 0;
}

Place place_in(const std::string& path, const toml::source_region& source) {
    return {path, static_cast<int>(source.begin.line), static_cast<int>(source.begin.column)};
}

bool is_variants_file(const toml::table& root) {
    return root["set"].is_string() && (root.contains("vary") || root.contains("swap"));
}

// `fixture "net"`, or "fixture 2" if the name is missing.
std::string label_of(const std::string& kind, const toml::table& table, size_t index) {
    const toml::node* name = table.get("name");
    if (name != nullptr && name->is_string()) {
        return kind + " \"" + *name->value<std::string>() + "\"";
    }
    return kind + " " + std::to_string(index + 1);
}

// Reads the whole file.
class RootReader {
  public:
    RootReader(const toml::table& root, const std::string& path, Problems& problems)
        : path_(path),
          problems_(problems),
          top_(root, {path}, "", problems),
          kit_(kit_folders(path), problems) {}

    std::vector<std::string> all_keys() const { return top_.all_keys(); }

    SetDescription read() {
        SetDescription set;
        set.path = path_;
        set.parsed = true;
        top_.read_keys([&](TableReader&) { read_tables(set); });
        set.lacks_kit = lacks_kit_;
        return set;
    }

  private:
    void read_tables(SetDescription& set) {
        top_.read(set.title, "title");
        top_.read(set.mains, "mains");
        read_one(set.room, "room", read_room);
        read_one(set.camera, "camera", read_camera);
        read_one(set.power, "power", read_power);
        read_all(set.fixtures, "fixture", read_fixture);
        read_all(set.glasses, "glass", read_glass);
        read_all(set.diffusers, "diffuser", read_diffuser);
        read_all(set.flags, "flag", read_flag);
        read_all(set.bounces, "bounce", read_bounce);
        read_all(set.stand_ins, "stand_in", read_stand_in);
        read_all(set.windows, "window", read_window);
        read_all(set.doors, "door", read_door);
        read_all(set.columns, "column", read_column);
        read_all(set.surfaces, "surface", read_surface);
        read_one(set.haze, "haze", read_haze);
        read_all(set.haze_boxes, "haze_box", read_haze_box);
        read_all(set.meters, "meter", read_meter);
        read_all(set.regions, "region", read_region);
    }

    template <typename Description>
    void read_one(Description& description,
                  const std::string& key,
                  void (*read_table_keys)(TableReader&, Description&)) {
        top_.read_table(
            description, key, [&](TableReader& table) { read_table_keys(table, description); });
    }

    template <typename Description>
    void read_all(std::vector<Description>& descriptions,
                  const std::string& key,
                  void (*read_table_keys)(TableReader&, Description&)) {
        const auto list_keys = [&](TableReader& table) {
            Description nothing;
            read_table_keys(table, nothing);
            Field<std::string> kit;
            if (has_kit(key)) table.read(kit, "kit");
        };
        for (const toml::table* table : top_.tables(key, list_keys)) {
            Description& description = descriptions.emplace_back();
            description.given = true;
            description.place = place_in(path_, table->source());
            description.label = label_of(key, *table, descriptions.size() - 1);
            TableReader reader(*table, description.place, description.label, problems_);
            if (start_from_kit(key, *table, description.kit, reader)) {
                reader.read_keys([&](TableReader& keys) { read_table_keys(keys, description); });
            } else {
                descriptions.pop_back();  // or all that it lacks would be reported too
                lacks_kit_ = true;
            }
        }
    }

    // Makes the table's missing keys come from the kit entry that it names, and stores its name in
    // `kit`. Returns false, with a problem, if the kit has no such entry.
    bool start_from_kit(const std::string& kind,
                        const toml::table& table,
                        std::string& kit,
                        TableReader& reader) {
        if (!has_kit(kind)) return true;
        Field<std::string> name;
        reader.read(name, "kit");
        if (!name.given) return true;
        kit = name.value;
        if (const KitEntry* entry = kit_.find(kind, name.value)) {
            reader.start_from(
                *entry->table, keys_hidden_by(table), {name.place, entry->name, entry->place.file});
            return true;
        }
        const std::string nearest = kit_.nearest(kind, name.value);
        problems_.add(name.place,
                      name.key,
                      "there is no " + kind + " \"" + name.value + "\" in the kit" +
                          (nearest.empty() ? "; dapple kit lists all names"
                                           : "; did you mean \"" + nearest + "\"?"));
        return false;
    }

    const std::string& path_;
    Problems& problems_;
    TableReader top_;
    KitShelf kit_;
    bool lacks_kit_ = false;
};

}  // namespace

SetDescription read_set_text(const std::string& text, const std::string& path, Problems& problems) {
    SetDescription nothing;
    nothing.path = path;
    if (const int line = line_of_too_many_dots(text); line > 0) {
        problems.add(
            {path, line}, "", "has more than 2000 dots in keys; a set file may have at most 2000");
        return nothing;
    }
    try {
        const toml::table root = toml::parse(text, path);
        if (is_variants_file(root)) {
            problems.add({path}, "", "is a file of variants; dapple overnight reads it");
            return nothing;
        }
        return RootReader(root, path, problems).read();
    } catch (const toml::parse_error& error) {
        problems.add(place_in(path, error.source()),
                     "",
                     toml_mistake(error.description(), text, error.source().begin.line));
        return nothing;
    }
}

std::vector<std::string> all_set_keys() {
    const toml::table empty;
    const std::string no_path;
    Problems none;
    RootReader reader(empty, no_path, none);
    reader.read();
    return reader.all_keys();
}

SetDescription read_set(const std::string& path, Problems& problems) {
    return read_set_text(read_toml_text(path), path, problems);
}

}  // namespace dapple
