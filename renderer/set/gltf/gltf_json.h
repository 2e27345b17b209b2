// Reads values of a glTF file's JSON, each checked.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace dapple {

// What is wrong with the file: where in its JSON, and what. Reading ends with it.
struct GltfTrouble {
    std::string key;  // "meshes[0].primitives[2].indices"
    std::string message;
};

// A value of the JSON and the way to it, for messages. A value that is missing is null.
class GltfValue {
  public:
    GltfValue(const nlohmann::json* value, std::string key) : value_(value), key_(std::move(key)) {}

    const std::string& key() const { return key_; }
    bool is_there() const { return value_ != nullptr; }
    [[noreturn]] void fail(const std::string& message) const { throw GltfTrouble{key_, message}; }

    // A member of an object, or an entry of a list. Both fail if this is of another kind.
    GltfValue member(const char* name) const;
    GltfValue entry(size_t index) const;
    size_t size() const;  // of a list; 0 if it is missing

    // The entry of the list `name` of `root` that this value, an index, refers to.
    GltfValue in_list(const GltfValue& root, const char* name) const;

    // Whole numbers from 0 to 2^40.
    int64_t whole(int64_t missing) const;
    int64_t whole() const;  // fails if it is missing
    double number(double missing) const;
    bool flag(bool missing) const;
    std::string text(const std::string& missing) const;
    // A list of this many finite numbers.
    std::vector<double> numbers(const std::vector<double>& missing) const;

  private:
    const nlohmann::json* value_;
    std::string key_;
};

}  // namespace dapple
