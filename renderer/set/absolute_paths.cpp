#include "set/absolute_paths.h"

#include <toml++/toml.h>

#include <filesystem>
#include <set>

#include "set/text_edits.h"

namespace dapple {

namespace {

const std::set<std::string, std::less<>> kPathKeys = {
    "model", "photometry", "file", "stencil", "lens_table"};

class PathFinder {
  public:
    PathFinder(const std::string& text, const std::string& folder) : text_(text), folder_(folder) {}

    void find(const toml::node& node) {
        if (const toml::table* table = node.as_table()) {
            for (const auto& [key, value] : *table) {
                if (kPathKeys.contains(key.str()) && value.is_string()) change(value);
                find(value);
            }
        }
        if (const toml::array* array = node.as_array()) {
            for (const toml::node& element : *array) find(element);
        }
    }
    std::string result() const { return with_edits(text_, edits_); }

  private:
    void change(const toml::node& value) {
        const std::filesystem::path path(*value.value<std::string>());
        if (path.empty() || path.is_absolute()) return;
        std::ostringstream quoted;
        quoted << toml::value<std::string>((folder_ / path).lexically_normal().string());
        edits_.push_back({offset_of(text_, value.source().begin),
                          offset_of(text_, value.source().end),
                          quoted.str()});
    }

    const std::string& text_;
    std::filesystem::path folder_;
    std::vector<TextEdit> edits_;
};

}  // namespace

std::string with_absolute_paths(const std::string& text, const std::string& folder) {
    PathFinder finder(text, folder);
    finder.find(toml::parse(text));
    return finder.result();
}

}  // namespace dapple
