// The binary data of a glTF file: buffers beside it, in data URIs or in its own second part.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problems.h"
#include "set/gltf/gltf_json.h"

namespace dapple {

// Values of one kind, checked to lie within their buffer.
class GltfAccessor {
  public:
    int64_t count() const { return count_; }
    int components() const { return components_; }
    bool holds_floats() const { return type_ == kFloat; }
    // Whole numbers as shares of their largest, if the file says so.
    double value(int64_t index, int component) const;
    // Whole numbers as they are.
    int64_t whole(int64_t index) const;

  private:
    friend class GltfBuffers;
    enum Type { kByte = 5120, kUbyte, kShort, kUshort, kUint = 5125, kFloat };
    template <class Number>
    Number at(int64_t index, int component) const;

    const char* data_ = nullptr;
    int64_t stride_ = 0;
    int64_t count_ = 0;
    int components_ = 1;
    Type type_ = kFloat;
    bool normalised_ = false;
};

class GltfBuffers {
  public:
    // `binary` is the second part of a .glb file.
    GltfBuffers(const GltfValue& root, std::string_view binary, std::string path)
        : root_(root), binary_(binary), path_(std::move(path)) {}

    // The accessor of this index. All fail with GltfTrouble.
    GltfAccessor accessor(const GltfValue& index);
    std::string_view view(const GltfValue& index);
    // The bytes of a data URI; nothing if it is another kind of URI.
    static std::optional<std::string> data_of(const GltfValue& uri);

  private:
    std::string_view buffer(const GltfValue& index);

    GltfValue root_;
    std::string_view binary_;
    std::string path_;
    struct Loaded {
        size_t index;
        std::shared_ptr<const std::string> bytes;
    };
    std::vector<Loaded> loaded_;
};

// A relative URI with %20 and the like decoded. Fails if it is on the web.
std::string file_of_uri(const GltfValue& uri);

}  // namespace dapple
