#include "set/gltf/gltf_buffers.h"

#include <algorithm>
#include <bit>
#include <cstring>
#include <limits>

#include "set/models/named_files.h"
#include "set/text_file.h"

namespace dapple {

namespace {

static_assert(std::endian::native == std::endian::little, "glTF buffers are little endian");

int base64_digit(char c) {
    if (c >= 'A' && c <= 'Z') return c - 'A';
    if (c >= 'a' && c <= 'z') return c - 'a' + 26;
    if (c >= '0' && c <= '9') return c - '0' + 52;
    return c == '+' ? 62 : c == '/' ? 63 : -1;
}

// RFC 4648. Returns nothing if there is another sign.
std::optional<std::string> decode_base64(std::string_view text) {
    while (!text.empty() && text.back() == '=') text.remove_suffix(1);
    std::string bytes;
    bytes.reserve(text.size() / 4 * 3 + 2);
    uint32_t bits = 0;
    int count = 0;
    for (const char c : text) {
        const int digit = base64_digit(c);
        if (digit < 0) return std::nullopt;
        bits = bits << 6U | static_cast<uint32_t>(digit);
        count += 6;
        if (count < 8) continue;
        count -= 8;
        bytes += static_cast<char>(bits >> static_cast<uint32_t>(count) & 0xffU);
    }
    return bytes;
}

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

int64_t component_size(int64_t type) {
    switch (type) {
        case 5120:
        case 5121:
            return 1;
        case 5122:
        case 5123:
            return 2;
        case 5125:
        case 5126:
            return 4;
        default:
            return 0;
    }
}

int component_count(const std::string& type) {
    return type == "SCALAR" ? 1 : type == "VEC2" ? 2 : type == "VEC3" ? 3 : type == "VEC4" ? 4 : 0;
}

}  // namespace

template <class Number>
Number GltfAccessor::at(int64_t index, int component) const {
    Number number;
    const char* place = data_ + index * stride_ + component * int64_t{sizeof(Number)};
    std::memcpy(&number, place, sizeof(Number));
    return number;
}

double GltfAccessor::value(int64_t index, int component) const {
    const auto share = [&](auto number) {
        const double most = std::numeric_limits<decltype(number)>::max();
        return normalised_ ? std::max(-1.0, number / most) : static_cast<double>(number);
    };
    switch (type_) {
        case kByte:
            return share(at<int8_t>(index, component));
        case kUbyte:
            return share(at<uint8_t>(index, component));
        case kShort:
            return share(at<int16_t>(index, component));
        case kUshort:
            return share(at<uint16_t>(index, component));
        case kUint:
            return at<uint32_t>(index, component);
        case kFloat:
            break;
    }
    return double{at<float>(index, component)};
}

int64_t GltfAccessor::whole(int64_t index) const {
    switch (type_) {
        case kUbyte:
            return at<uint8_t>(index, 0);
        case kUshort:
            return at<uint16_t>(index, 0);
        case kUint:
            return at<uint32_t>(index, 0);
        default:
            return -1;
    }
}

std::optional<std::string> GltfBuffers::data_of(const GltfValue& uri) {
    const std::string text = uri.text("");
    if (!text.starts_with("data:")) return std::nullopt;
    const size_t comma = text.find(',');
    const bool is_base64 = comma != std::string::npos && text.substr(0, comma).ends_with(";base64");
    std::optional<std::string> bytes;
    if (is_base64) bytes = decode_base64(std::string_view(text).substr(comma + 1));
    if (!bytes) uri.fail("is not data in base64");
    return bytes;
}

std::string file_of_uri(const GltfValue& uri) {
    const std::string text = uri.text("");
    if (text.find("://") != std::string::npos) {
        uri.fail("is " + in_quotes(text) + "; must be a file on this machine");
    }
    std::string name;
    for (size_t i = 0; i < text.size(); ++i) {
        const bool coded = text[i] == '%' && i + 2 < text.size() && hex_digit(text[i + 1]) >= 0 &&
                           hex_digit(text[i + 2]) >= 0;
        name += coded ? static_cast<char>(16 * hex_digit(text[i + 1]) + hex_digit(text[i + 2]))
                      : text[i];
        if (coded) i += 2;
    }
    return name;
}

std::string_view GltfBuffers::buffer(const GltfValue& index) {
    const GltfValue buffer = index.in_list(root_, "buffers");
    const auto number = static_cast<size_t>(index.whole());
    for (const Loaded& one : loaded_) {
        if (one.index == number) return *one.bytes;
    }
    const GltfValue uri = buffer.member("uri");
    if (!uri.is_there()) {
        if (binary_.empty()) buffer.fail("has no uri, and the file has no binary part");
        return binary_;
    }
    std::optional<std::string> bytes = data_of(uri);
    if (!bytes) {
        const std::string name = file_of_uri(uri);
        const std::string found = find_named_file(folder_of(path_), name);
        if (found.empty()) {
            uri.fail("no such file: " + in_quotes(named_path(folder_of(path_), name)));
        }
        Problems problems;
        TextFile file;
        if (!read_whole_file(found, problems, file)) uri.fail(to_string(problems.all().front()));
        bytes = std::string(file.text());
    }
    loaded_.push_back({number, std::make_shared<const std::string>(std::move(*bytes))});
    return *loaded_.back().bytes;
}

std::string_view GltfBuffers::view(const GltfValue& index) {
    const GltfValue view = index.in_list(root_, "bufferViews");
    const std::string_view bytes = buffer(view.member("buffer"));
    const auto offset = static_cast<size_t>(view.member("byteOffset").whole(0));
    const auto length = static_cast<size_t>(view.member("byteLength").whole());
    if (offset > bytes.size() || length > bytes.size() - offset) {
        view.fail("needs " + std::to_string(offset + length) + " bytes; its buffer has " +
                  std::to_string(bytes.size()) + " (the file may be cut off)");
    }
    return bytes.substr(offset, length);
}

GltfAccessor GltfBuffers::accessor(const GltfValue& index) {
    const GltfValue given = index.in_list(root_, "accessors");
    if (given.member("sparse").is_there()) given.fail("is sparse, which is not read");
    if (!given.member("bufferView").is_there()) given.fail("has no bufferView");
    const std::string_view bytes = view(given.member("bufferView"));
    const GltfValue view = given.member("bufferView").in_list(root_, "bufferViews");
    const int64_t type = given.member("componentType").whole();
    const int64_t component = component_size(type);
    if (component == 0) given.fail("has the componentType " + std::to_string(type));
    GltfAccessor accessor;
    accessor.type_ = static_cast<GltfAccessor::Type>(type);
    accessor.components_ = component_count(given.member("type").text(""));
    if (accessor.components_ == 0) given.fail("must be of type SCALAR, VEC2, VEC3 or VEC4");
    accessor.normalised_ = given.member("normalized").flag(false);
    accessor.count_ = given.member("count").whole();
    const int64_t one = component * accessor.components_;
    accessor.stride_ = view.member("byteStride").whole(one);
    const int64_t offset = given.member("byteOffset").whole(0);
    const auto size = static_cast<int64_t>(bytes.size());
    const bool fits = accessor.count_ == 0 ||
                      (accessor.stride_ >= one && offset <= size && one <= size - offset &&
                       (accessor.count_ - 1) <= (size - offset - one) / accessor.stride_);
    if (!fits) {
        given.fail("has " + std::to_string(accessor.count_) + " values; its " +
                   std::to_string(size) + " bytes are too few");
    }
    accessor.data_ = bytes.data() + offset;
    return accessor;
}

}  // namespace dapple
