#include "night/share_files.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "base/problems.h"
#include "output/safe_file.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

constexpr const char* kShareFile = "share.json";

nlohmann::json read_share_json(const std::string& folder) {
    const std::string path = (fs::path(folder) / kShareFile).string();
    std::ifstream in(path, std::ios::binary);
    nlohmann::json read = nlohmann::json::parse(in, nullptr, false);
    const bool is_whole = read.is_object() && read.contains("units") && read["units"].is_array();
    if (!is_whole) throw FileError(path, "is not what dapple overnight --shard has written");
    return read;
}

ShareRecord record_of(const std::string& folder) {
    const nlohmann::json read = read_share_json(folder);
    ShareRecord record;
    record.folder = folder;
    record.share = {read.value("share", 0), read.value("of", 0)};
    record.passes = read.value("passes", int64_t{0});
    record.variants_file = read.value("variants_file", "");
    record.width = read.value("width", 0);
    record.seed = read.value("seed", uint64_t{0});
    return record;
}

// Of a night's folder, by number.
std::vector<std::string> share_folders(const std::string& night_folder) {
    std::vector<std::string> folders;
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(fs::path(night_folder) / "shares", error)) {
        if (fs::exists(entry.path() / kShareFile)) folders.push_back(entry.path().string());
    }
    std::sort(folders.begin(), folders.end());
    return folders;
}

}  // namespace

std::string share_folder(const std::string& night_folder, const Share& share) {
    std::string number = std::to_string(share.number);
    const std::string of = std::to_string(share.of);
    number.insert(0, of.size() - number.size(), '0');
    return (fs::path(night_folder) / "shares" / (number + "-of-" + of)).string();
}

void write_share(const ShareRecord& record,
                 const NightPlan& plan,
                 const std::vector<ShareUnitState>& units) {
    nlohmann::json list = nlohmann::json::array();
    for (const ShareUnitState& u : units) {
        const Variant& variant = plan.variants[u.unit.variant].variant;
        list.push_back(
            {{"name", variant.name},
             {"folder", variant.folder},
             {"first_pass", u.unit.first_pass + 1},
             {"last_pass", u.unit.first_pass + u.unit.passes},
             {"passes", u.made},
             {"failure", u.failure.empty() ? nlohmann::json(nullptr) : nlohmann::json(u.failure)}});
    }
    const nlohmann::json all = {{"share", record.share.number},
                                {"of", record.share.of},
                                {"passes", record.passes},
                                {"variants_file", record.variants_file},
                                {"width", record.width},
                                {"seed", record.seed},
                                {"units", list}};
    write_text((fs::path(record.folder) / kShareFile).string(), all.dump(2) + "\n");
}

std::vector<ShareRecord> read_shares(const std::vector<std::string>& folders) {
    std::vector<ShareRecord> shares;
    for (const std::string& folder : folders) {
        const bool is_share = fs::exists(fs::path(folder) / kShareFile);
        const std::vector<std::string> found =
            is_share ? std::vector<std::string>{folder} : share_folders(folder);
        if (found.empty()) {
            throw FileError(folder,
                            "has no shares of a night; dapple overnight --shard makes them");
        }
        for (const std::string& share : found) shares.push_back(record_of(share));
    }
    std::stable_sort(shares.begin(), shares.end(), [](const ShareRecord& a, const ShareRecord& b) {
        return a.share.number < b.share.number;
    });
    return shares;
}

std::string share_status_text(const std::string& night_folder) {
    std::string text;
    for (const std::string& folder : share_folders(night_folder)) {
        const nlohmann::json read = read_share_json(folder);
        int64_t made = 0;
        int64_t all = 0;
        size_t failed = 0;
        for (const nlohmann::json& unit : read["units"]) {
            made += unit.value("passes", int64_t{0});
            all += unit.value("last_pass", int64_t{0}) - unit.value("first_pass", int64_t{1}) + 1;
            if (unit["failure"].is_string()) ++failed;
        }
        text += "share " + std::to_string(read.value("share", 0)) + " of " +
                std::to_string(read.value("of", 0)) + ": " + std::to_string(made) + " of " +
                std::to_string(all) + " passes";
        if (failed > 0) text += ", " + std::to_string(failed) + " failed";
        text += '\n';
    }
    return text;
}

}  // namespace dapple
