#include "film_path.h"

#include <algorithm>
#include <cstring>
#include <filesystem>
#include <set>

#include "base/problems.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

// Of a folder, sorted: its EXRs, or its folders.
std::vector<std::string> entries_of(const std::string& folder, bool folders) {
    std::error_code error;
    std::vector<std::string> entries;
    for (const auto& entry : fs::directory_iterator(folder, error)) {
        std::error_code unreadable;
        const bool is_folder = entry.is_directory(unreadable);
        if (folders ? is_folder : !is_folder && entry.path().extension() == ".exr") {
            entries.push_back(entry.path().string());
        }
    }
    if (error) throw FileError(folder, error.message());
    // In the order of the numbers in their names: jar-9 before jar-10.
    std::sort(entries.begin(), entries.end(), [](const std::string& a, const std::string& b) {
        return ::strverscmp(a.c_str(), b.c_str()) < 0;
    });
    return entries;
}

bool is_folder(const std::string& path) {
    std::error_code error;
    return fs::is_directory(path, error);
}

std::vector<std::string> films_in(const std::string& folder) {
    std::vector<std::string> films = entries_of(folder, false);
    if (!films.empty()) return films;
    for (const std::string& inner : entries_of(folder, true)) {
        for (std::string& film : entries_of(inner, false)) films.push_back(std::move(film));
    }
    if (films.empty()) throw FileError(folder, "holds no .exr; give the folder of a render");
    return films;
}

std::string folder_name(const std::string& film) {
    return fs::absolute(film).lexically_normal().parent_path().filename().string();
}

}  // namespace

std::string find_film(const std::string& path) {
    if (!is_folder(path)) return path;
    const std::vector<std::string> films = entries_of(path, false);
    if (films.empty()) throw FileError(path, "holds no .exr; give the folder of a render");
    if (films.size() > 1) {
        throw FileError(path,
                        "holds " + std::to_string(films.size()) +
                            " .exr files; name one, such as " + films.front());
    }
    return films.front();
}

std::vector<std::string> find_films(const std::vector<std::string>& paths) {
    std::vector<std::string> films;
    for (const std::string& path : paths) {
        if (!is_folder(path)) {
            films.push_back(path);
            continue;
        }
        for (std::string& film : films_in(path)) films.push_back(std::move(film));
    }
    return films;
}

std::string film_stem(const std::string& path) {
    return fs::path(path).stem().string();
}

std::vector<std::string> distinct_names(const std::vector<std::string>& films) {
    std::multiset<std::string> stems;
    for (const std::string& film : films) stems.insert(film_stem(film));
    std::vector<std::string> names;
    std::set<std::string> taken;
    for (const std::string& film : films) {
        std::string name = film_stem(film);
        if (stems.count(name) > 1 && !folder_name(film).empty()) name = folder_name(film);
        std::string distinct = name;
        for (int i = 2; !taken.insert(distinct).second; ++i) {
            distinct = name + "-" + std::to_string(i);
        }
        names.push_back(std::move(distinct));
    }
    return names;
}

}  // namespace dapple
