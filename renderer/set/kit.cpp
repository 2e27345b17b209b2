#include "set/kit.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <system_error>

#include "set/toml_text.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

constexpr std::array<const char*, 6> kKinds{
    "fixture", "glass", "diffuser", "flag", "bounce", "surface"};
constexpr std::array<const char*, 6> kSupports{
    "stand", "clamp", "weight", "cable", "battery", "frame"};

// Keys that say the same thing. If the set file has one of them, the kit entry's are not used.
const std::vector<std::vector<std::string>> kOneOf{
    {"output_lm", "output_range_lm", "peak_cd", "lux"},
    {"size_m", "diameter_m"},
    {"form", "model"},
    {"focus", "beam_angle_deg"},
    {"metal", "coat", "transmission", "glass"}};
// If the set file has the first key of a list, none of the list is taken from the kit entry.
const std::vector<std::vector<std::string>> kFirstHidesAll{
    {"cloth", "transmission", "spread_deg", "direct"},
    {"finish", "reflectance", "roughness"},
    {"beam_range_deg", "beam_angle_deg", "field_angle_deg", "field_range_deg"},
    {"field_angle_deg", "field_range_deg"},
    {"photometry",
     "beam_angle_deg",
     "field_angle_deg",
     "beam_range_deg",
     "field_range_deg",
     "output_range_lm"},
    {"transmission", "roughness"},
    {"surface",
     "ribs",
     "rib_depth_mm",
     "rib_twist_deg",
     "pattern_mm",
     "pattern_depth_mm",
     "bubbles",
     "bubble_mm"}};

std::string text_of(const toml::table& table, const char* key) {
    const toml::node* node = table.get(key);
    return node != nullptr && node->is_string() ? *node->value<std::string>() : "";
}

// scenes/kit/ in the folders above the running program, which may be in build/release/.
std::vector<std::string> above_program() {
    std::error_code error;
    std::vector<std::string> folders;
    fs::path folder = fs::read_symlink("/proc/self/exe", error).parent_path();
    for (int i = 0; i < 4 && !error && folder.has_relative_path(); ++i) {
        folders.push_back((folder / "scenes" / "kit").string());
        folder = folder.parent_path();
    }
    return folders;
}

}  // namespace

bool has_kit(const std::string& kind) {
    return std::find(kKinds.begin(), kKinds.end(), kind) != kKinds.end();
}

bool is_support(const std::string& kind) {
    return std::find(kSupports.begin(), kSupports.end(), kind) != kSupports.end();
}

std::vector<std::string> support_kinds() {
    return {kSupports.begin(), kSupports.end()};
}

std::vector<std::string> kit_folders(const std::string& set_path) {
    std::vector<std::string> candidates;
    if (!set_path.empty())
        candidates.push_back((fs::path(set_path).parent_path() / "kit").string());
    for (std::string& folder : above_program()) candidates.push_back(std::move(folder));
    candidates.emplace_back(DAPPLE_KIT_FOLDER);
    std::vector<std::string> folders;
    for (const std::string& folder : candidates) {
        std::error_code error;
        if (!fs::is_directory(folder, error)) continue;
        const bool known = std::any_of(folders.begin(), folders.end(), [&](const std::string& f) {
            return fs::equivalent(f, folder, error);
        });
        if (!known) folders.push_back(folder);
    }
    return folders;
}

std::vector<std::string> keys_hidden_by(const toml::table& written) {
    std::vector<std::string> hidden;
    for (const auto& ways : kOneOf) {
        const bool any = std::any_of(ways.begin(), ways.end(), [&](const std::string& key) {
            return written.contains(key);
        });
        if (any) hidden.insert(hidden.end(), ways.begin(), ways.end());
    }
    for (const auto& keys : kFirstHidesAll) {
        if (written.contains(keys.front())) hidden.insert(hidden.end(), keys.begin(), keys.end());
    }
    return hidden;
}

void KitShelf::add_entries(const std::string& kind,
                           const toml::table& file,
                           const std::string& path) {
    const toml::array* list = file.get_as<toml::array>(kind);
    if (list == nullptr) return;
    for (const toml::node& node : *list) {
        const toml::table* table = node.as_table();
        if (table == nullptr) continue;
        KitEntry entry;
        entry.kind = kind;
        entry.name = text_of(*table, "kit");
        entry.about = text_of(*table, "about");
        entry.table = table;
        entry.place = {path, static_cast<int>(table->source().begin.line), 1};
        const size_t words = table->contains("about") ? 3 : 2;
        entry.only_counts = has_kit(kind) && table->contains("count") && table->size() == words;
        if (entry.name.empty()) {
            problems_.add(entry.place, kind, "has no name; give it as kit = \"...\"");
            continue;
        }
        entries_.push_back(entry);
    }
}

void KitShelf::read_file(const std::string& path) {
    const std::string text = read_toml_text(path);
    try {
        files_.push_back(std::make_unique<toml::table>(toml::parse(text, path)));
    } catch (const toml::parse_error& error) {
        const auto& begin = error.source().begin;
        problems_.add({path, static_cast<int>(begin.line), static_cast<int>(begin.column)},
                      "",
                      toml_mistake(error.description(), text, begin.line));
        return;
    }
    for (const char* kind : kKinds) add_entries(kind, *files_.back(), path);
    for (const char* kind : kSupports) add_entries(kind, *files_.back(), path);
}

void KitShelf::read_folder(const std::string& folder) {
    std::error_code error;
    std::vector<std::string> paths;
    for (const auto& file : fs::directory_iterator(folder, error)) {
        if (file.path().extension() == ".toml") paths.push_back(file.path().string());
    }
    std::sort(paths.begin(), paths.end());
    for (const std::string& path : paths) read_file(path);
}

const std::vector<KitEntry>& KitShelf::entries() {
    if (!is_read_) {
        is_read_ = true;
        for (const std::string& folder : folders_) read_folder(folder);
    }
    return entries_;
}

const KitEntry* KitShelf::find(const std::string& kind, const std::string& name) {
    for (const KitEntry& entry : entries()) {
        if (entry.kind == kind && entry.name == name && !entry.only_counts) return &entry;
    }
    return nullptr;
}

std::string KitShelf::nearest(const std::string& kind, const std::string& name) {
    std::vector<std::string> names;
    for (const KitEntry& entry : entries()) {
        if (entry.kind == kind) names.push_back(entry.name);
    }
    return nearest_word(name, names);
}

}  // namespace dapple
