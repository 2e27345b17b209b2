#include "sheet_owner.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "base/problems.h"
#include "output/read_exr.h"
#include "output/safe_file.h"
#include "result_owner.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

std::string owner_file(const std::string& folder) {
    return (fs::path(folder) / "sheet.json").string();
}

// "" where the film does not keep it.
std::vector<std::string> sets_of(const std::vector<std::string>& films) {
    std::vector<std::string> sets;
    for (const std::string& film : films) sets.push_back(read_exr_without_pixels(film).run.set);
    return sets;
}

bool contains(const std::vector<std::string>& list, const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

// The sets that earlier sheets in the folder are of.
std::vector<std::string> earlier_sets(const std::string& folder) {
    std::ifstream file(owner_file(folder), std::ios::binary);
    if (!file) return {};
    const nlohmann::json owner = nlohmann::json::parse(file, nullptr, false);
    std::vector<std::string> sets;
    if (!owner.is_object() || !owner.contains("sets") || !owner["sets"].is_array()) return sets;
    for (const nlohmann::json& set : owner["sets"]) {
        if (set.is_string()) sets.push_back(set);
    }
    return sets;
}

}  // namespace

void check_sheet_owner(const std::string& folder,
                       const std::vector<std::string>& films,
                       const std::vector<std::string>& names) {
    std::error_code error;
    const std::string night = (fs::path(folder) / "overnight.json").string();
    if (fs::exists(night, error)) {
        throw FileError(night, "the folder has the sheet of a night; give another folder with -o");
    }
    const std::vector<std::string> sets = sets_of(films);
    const std::vector<std::string> earlier = earlier_sets(folder);
    const bool is_same =
        contains(sets, "") || std::any_of(earlier.begin(), earlier.end(), [&](const auto& set) {
            return contains(sets, set);
        });
    for (const std::string& owner : earlier) {
        if (is_same || !fs::exists(owner, error)) continue;
        throw FileError(owner_file(folder),
                        "the sheets in the folder are of another set, " + owner +
                            "; give another folder with -o, or move those results away");
    }
    for (size_t i = 0; i < films.size(); ++i) {
        check_same_set((fs::path(folder) / (names[i] + ".stats.json")).string(), sets[i]);
    }
}

std::string write_sheet_owner(const std::string& folder, const std::vector<std::string>& films) {
    nlohmann::json owner = {{"sets", nlohmann::json::array()}, {"films", nlohmann::json::array()}};
    std::vector<std::string> sets = sets_of(films);
    std::sort(sets.begin(), sets.end());
    sets.erase(std::unique(sets.begin(), sets.end()), sets.end());
    for (const std::string& set : sets) {
        if (!set.empty()) owner["sets"].push_back(set);
    }
    for (const std::string& film : films) owner["films"].push_back(absolute_set(film));
    const std::string path = owner_file(folder);
    write_text(path, owner.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n");
    return path;
}

}  // namespace dapple
