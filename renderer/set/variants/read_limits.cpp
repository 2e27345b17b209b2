#include "set/variants/read_limits.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

const std::vector<std::string> kLimitKeys = {
    "passes", "noise_percent", "hours", "until", "memory_gb"};
constexpr int64_t kMostPasses = 1000000;

class LimitsReader {
  public:
    LimitsReader(const std::string& path, Problems& problems) : path_(path), problems_(problems) {}

    FileLimits read(const toml::table& table) {
        FileLimits limits;
        for (const auto& [key, node] : table) read_key(std::string(key.str()), node, limits);
        return limits;
    }
    Place place_of(const toml::node& node) const {
        const auto& at = node.source().begin;
        return {path_, static_cast<int>(at.line), static_cast<int>(at.column)};
    }

  private:
    void report(const toml::node& node, const std::string& key, const std::string& message) {
        problems_.add(place_of(node), "limits." + key, message);
    }

    void read_key(const std::string& key, const toml::node& node, FileLimits& limits) {
        if (key == "passes") {
            const auto count = node.is_integer() ? node.value<int64_t>() : std::nullopt;
            const bool good = count && *count >= 1 && *count <= kMostPasses;
            if (!good) return report(node, key, "must be a whole number from 1 to 1000000");
            limits.passes = static_cast<int>(*count);
        } else if (key == "until") {
            if (!node.is_string()) return report(node, key, "must be a time such as \"06:30\"");
            limits.until = *node.value<std::string>();
            limits.until_place = place_of(node);
        } else if (key == "noise_percent") {
            read_number(key, node, limits.noise_percent);
        } else if (key == "hours") {
            read_number(key, node, limits.hours);
        } else if (key == "memory_gb") {
            read_number(key, node, limits.memory_gb);
        } else {
            const std::string nearest = nearest_word(key, kLimitKeys);
            report(node,
                   key,
                   "unknown key" + (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
        }
    }

    void read_number(const std::string& key, const toml::node& node, double& number) {
        const auto value = node.value<double>();
        const bool good = value && std::isfinite(*value) && *value > 0;
        if (!good) return report(node, key, "must be a number above 0");
        number = *value;
    }

    const std::string& path_;
    Problems& problems_;
};

}  // namespace

FileLimits read_limits(const toml::table& root, const std::string& path, Problems& problems) {
    const toml::node* node = root.get("limits");
    if (!node) return {};
    LimitsReader reader(path, problems);
    if (const toml::table* table = node->as_table()) return reader.read(*table);
    problems.add(reader.place_of(*node), "limits", "must be a table: [limits]");
    return {};
}

}  // namespace dapple
