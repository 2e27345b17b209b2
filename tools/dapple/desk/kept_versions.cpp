#include "desk/kept_versions.h"

#include <algorithm>
#include <array>
#include <ctime>
#include <filesystem>

#include "base/problems.h"
#include "output/safe_file.h"
#include "set/toml_text.h"

namespace dapple {

namespace {

constexpr const char* kEnding = ".toml";

// By the clock on the wall, in an order that names sort in.
std::string name_of_now() {
    const std::time_t now = std::time(nullptr);
    std::tm parts{};
    ::localtime_r(&now, &parts);
    std::array<char, 32> text{};
    std::strftime(text.data(), text.size(), "%Y-%m-%d %H-%M-%S", &parts);
    return text.data();
}

}  // namespace

KeptVersions::KeptVersions(const std::string& set) : folder_(set + ".versions") {}

void KeptVersions::move_to(const std::string& set) const {
    std::error_code error;
    const std::string other = KeptVersions(set).folder_;
    if (!std::filesystem::exists(other, error)) std::filesystem::rename(folder_, other, error);
}

std::string KeptVersions::path_of(const std::string& name) const {
    return (std::filesystem::path(folder_) / (name + kEnding)).string();
}

void KeptVersions::keep(const std::string& text) const {
    const std::vector<std::string> all = names();
    if (!all.empty() && text_of(all.front()) == text) return;
    const std::string now = name_of_now();
    std::string name = now;
    std::error_code error;
    for (int i = 2; std::filesystem::exists(path_of(name), error); ++i) {
        name = now + " (" + std::to_string(i) + ")";
    }
    write_text(path_of(name), text);
}

std::vector<std::string> KeptVersions::names() const {
    std::vector<std::string> names;
    std::error_code error;
    for (std::filesystem::directory_iterator entry(folder_, error), end; !error && entry != end;
         entry.increment(error)) {
        if (entry->path().extension() == kEnding) names.push_back(entry->path().stem().string());
    }
    std::sort(names.rbegin(), names.rend());
    return names;
}

std::string KeptVersions::text_of(const std::string& name) const {
    const std::vector<std::string> all = names();
    if (std::find(all.begin(), all.end(), name) == all.end()) {
        throw FileError(folder_, "has no version of this name");
    }
    return read_toml_text(path_of(name));
}

}  // namespace dapple
