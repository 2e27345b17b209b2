#include "set/read_gear.h"

#include <algorithm>

#include "set/kit.h"
#include "set/tables/table_reader.h"

namespace dapple {

namespace {

void read_gear_keys(TableReader& table, GearDescription& gear) {
    Field<std::string> text;
    table.read(text, "kit");
    table.read(text, "about");
    table.read(gear.count, "count");
    if (gear.kind == "stand") table.read(gear.reach_m, "reach_m");
    if (gear.kind == "cable") table.read(gear.length_m, "length_m");
    if (gear.kind == "frame") table.read(gear.size_m, "size_m");
}

}  // namespace

std::vector<GearDescription> read_gear(const std::string& set_path, Problems& problems) {
    KitShelf shelf(kit_folders(set_path), problems);
    std::vector<GearDescription> all;
    for (const KitEntry& entry : shelf.entries()) {
        const bool supports = is_support(entry.kind);
        if (!supports && !entry.table->contains("count")) continue;
        const bool known = std::any_of(all.begin(), all.end(), [&](const GearDescription& g) {
            return g.kind == entry.kind && g.name == entry.name;
        });
        if (known) continue;
        GearDescription& gear = all.emplace_back();
        gear.given = true;
        gear.kind = entry.kind;
        gear.name = entry.name;
        gear.place = entry.place;
        gear.label = entry.kind + " \"" + entry.name + "\"";
        TableReader reader(*entry.table, entry.place, gear.label, problems);
        if (supports) {
            reader.read_keys([&](TableReader& table) { read_gear_keys(table, gear); });
        } else {
            reader.read(gear.count, "count");
        }
    }
    return all;
}

std::vector<std::string> all_gear_keys() {
    const toml::table empty;
    Problems none;
    std::vector<std::string> keys;
    for (const std::string& kind : support_kinds()) {
        keys.push_back(kind);
        GearDescription gear;
        gear.kind = kind;
        TableReader reader(empty, {}, "", none);
        reader.read_keys([&](TableReader& table) { read_gear_keys(table, gear); });
        for (const std::string& key : reader.all_keys()) keys.push_back(kind + "." + key);
    }
    return keys;
}

}  // namespace dapple
