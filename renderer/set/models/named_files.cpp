#include "set/models/named_files.h"

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "set/text_lines.h"

namespace dapple {

namespace fs = std::filesystem;

namespace {

// Limits on the search for one line; real files stay far below them.
constexpr size_t kMostWords = 64;
constexpr size_t kLongestName = 4096;
constexpr int kMostFolderEntries = 10000;

bool is_file(const fs::path& path) {
    std::error_code error;
    return fs::is_regular_file(path, error);
}

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool same_but_case(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) {
        return lower(x) == lower(y);
    });
}

bool ends_with_but_case(std::string_view text, std::string_view ending) {
    return text.size() >= ending.size() &&
           same_but_case(text.substr(text.size() - ending.size()), ending);
}

std::string clean_name(std::string_view name) {
    if (name.size() >= 2 && name.front() == '"' && name.back() == '"') {
        name = name.substr(1, name.size() - 2);
    }
    std::string text(name);
    std::replace(text.begin(), text.end(), '\\', '/');
    return text;
}

bool is_usable(std::string_view name) {
    return !name.empty() && name.size() <= kLongestName &&
           name.find('\0') == std::string_view::npos;
}

std::string find_but_case(const fs::path& path) {
    std::error_code error;
    fs::directory_iterator entry(path.parent_path(), error);
    const std::string name = path.filename().string();
    for (int i = 0; i < kMostFolderEntries && !error && entry != fs::directory_iterator();
         ++i, entry.increment(error)) {
        if (same_but_case(entry->path().filename().string(), name) && is_file(entry->path())) {
            return entry->path().string();
        }
    }
    return "";
}

std::string_view span_words(std::string_view first, std::string_view last) {
    return {first.data(), static_cast<size_t>(last.data() + last.size() - first.data())};
}

}  // namespace

std::string folder_of(const std::string& path) {
    const std::string folder = fs::path(path).parent_path().string();
    return folder.empty() ? "." : folder;
}

std::string named_path(const std::string& folder, std::string_view name) {
    return (fs::path(folder) / clean_name(name)).lexically_normal().string();
}

std::string find_named_file(const std::string& folder, std::string_view name) {
    if (!is_usable(name)) return "";
    const fs::path named = named_path(folder, name);
    const fs::path beside = fs::path(folder) / named.filename();
    for (const fs::path& path : {named, beside}) {
        if (is_file(path)) return path.string();
    }
    for (const fs::path& path : {named, beside}) {
        std::string found = find_but_case(path);
        if (!found.empty()) return found;
    }
    return "";
}

std::vector<std::string_view> split_file_names(const std::string& folder,
                                               std::string_view line,
                                               std::string_view ending) {
    std::vector<std::string_view> names;
    if (line.size() > kLongestName) return {line};
    std::vector<std::string_view> words = split_words(line, " \t\v\f");
    words.resize(std::min(words.size(), kMostWords));
    for (size_t first = 0; first < words.size();) {
        size_t last = words.size();
        const auto name = [&] { return span_words(words[first], words[last - 1]); };
        while (last > first && !is_file(named_path(folder, name()))) --last;
        if (last == first) {
            do {
                ++last;
            } while (last < words.size() && !ends_with_but_case(words[last - 1], ending));
        }
        names.push_back(name());
        first = last;
    }
    return names;
}

}  // namespace dapple
