#include "set/ply/ply_header.h"

#include <charconv>

#include "set/text_file.h"
#include "set/text_lines.h"

namespace dapple {

namespace {

constexpr std::string_view kBlanks = " \t\v\f";
constexpr size_t kMostElements = 100;
constexpr size_t kMostProperties = 1000;  // of all elements

struct TypeName {
    std::string_view name, other;
    PlyType type;
    int64_t size;
};
constexpr TypeName kTypes[] = {
    // in the order of PlyType
    {"char", "int8", PlyType::kInt8, 1},
    {"uchar", "uint8", PlyType::kUint8, 1},
    {"short", "int16", PlyType::kInt16, 2},
    {"ushort", "uint16", PlyType::kUint16, 2},
    {"int", "int32", PlyType::kInt32, 4},
    {"uint", "uint32", PlyType::kUint32, 4},
    {"float", "float32", PlyType::kFloat, 4},
    {"double", "float64", PlyType::kDouble, 8},
};

std::optional<PlyType> type_named(std::string_view name) {
    for (const TypeName& type : kTypes) {
        if (name == type.name || name == type.other) return type.type;
    }
    return std::nullopt;
}

class HeaderReader {
  public:
    HeaderReader(std::string_view bytes, const std::string& path, Problems& problems)
        : bytes_(bytes), path_(path), problems_(problems) {}

    std::optional<PlyHeader> read() {
        if (!next_line() || line_ != "ply") {
            fail("is not a PLY file: its first line must be ply");
            return std::nullopt;
        }
        bool has_format = false;
        while (next_line()) {
            const std::vector<std::string_view> words = split_words(line_, kBlanks);
            if (words.empty()) continue;
            if (words[0] == "end_header") {
                if (!has_format) fail("has no line format above end_header");
                if (!has_format || !check_size()) return std::nullopt;
                return std::move(header_);
            }
            if (words[0] == "format") has_format = true;
            if (!read_line(words)) return std::nullopt;
        }
        fail("ends in its header, without a line end_header");
        return std::nullopt;
    }

  private:
    bool fail(const std::string& message) {
        problems_.add({path_, header_.lines}, "", message);
        return false;
    }

    // Lines end in \n or \r\n, old ones in \r. After \r alone no value can be \n: binary values
    // start right after end_header.
    bool next_line() {
        const std::string_view rest = bytes_.substr(header_.size);
        constexpr size_t kLongest = 100000;
        const size_t end = rest.substr(0, kLongest).find_first_of("\r\n");
        if (end == std::string_view::npos) return false;
        line_ = trimmed(rest.substr(0, end));
        const bool two = rest.substr(end).starts_with("\r\n");
        header_.size += end + (two ? 2 : 1);
        ++header_.lines;
        return true;
    }

    bool read_line(const std::vector<std::string_view>& words) {
        if (words[0] == "format") return read_format(words);
        if (words[0] == "element") return read_element(words);
        if (words[0] == "property") return read_property(words);
        if (words[0] == "comment") {
            note_texture(words);
            return true;
        }
        if (words[0] == "obj_info") return true;
        return fail(in_quotes(words[0]) + " is not a word of PLY headers");
    }

    bool read_format(const std::vector<std::string_view>& words) {
        const std::string_view name = words.size() > 1 ? words[1] : std::string_view();
        if (name == "ascii") {
            header_.format = PlyFormat::kAscii;
        } else if (name == "binary_little_endian") {
            header_.format = PlyFormat::kLittleEndian;
        } else if (name == "binary_big_endian") {
            header_.format = PlyFormat::kBigEndian;
        } else {
            return fail("format is " + in_quotes(name) +
                        "; must be ascii, binary_little_endian or binary_big_endian");
        }
        return true;
    }

    bool read_element(const std::vector<std::string_view>& words) {
        PlyElement element;
        const std::string_view count = words.size() == 3 ? words[2] : std::string_view();
        const auto [stop, error] =
            std::from_chars(count.data(), count.data() + count.size(), element.count);
        if (count.empty() || error != std::errc() || stop != count.data() + count.size() ||
            element.count < 0) {
            return fail("must be like: element vertex 1000");
        }
        if (header_.elements.size() == kMostElements) return fail("has too many elements");
        element.name = words[1];
        element.line = header_.lines;
        header_.elements.push_back(std::move(element));
        return true;
    }

    bool read_property(const std::vector<std::string_view>& words) {
        PlyProperty property;
        const bool is_list = words.size() == 5 && words[1] == "list";
        const bool is_value = words.size() == 3;
        const auto type = is_list || is_value ? type_named(words[is_list ? 3 : 1]) : std::nullopt;
        if (is_list) property.count_type = type_named(words[2]);
        if (!type || (is_list && !property.count_type)) {
            return fail("must be like: property float x, or: property list uchar int indices");
        }
        if (header_.elements.empty()) return fail("is above the first element; must be below one");
        if (++properties_ > kMostProperties) return fail("has too many properties");
        property.name = words.back();
        property.type = *type;
        header_.elements.back().properties.push_back(std::move(property));
        return true;
    }

    // The name may contain blanks.
    void note_texture(const std::vector<std::string_view>& words) {
        if (words.size() < 3 || lower_case(words[1]) != "texturefile") return;
        const std::string_view name =
            line_.substr(static_cast<size_t>(words[2].data() - line_.data()));
        header_.textures.push_back({std::string(name), {path_, header_.lines}});
    }

    bool check_size() {
        const auto left = static_cast<int64_t>(bytes_.size() - header_.size);
        for (const PlyElement& element : header_.elements) {
            int64_t least = 0;  // bytes of one
            for (const PlyProperty& property : element.properties) {
                least += header_.format == PlyFormat::kAscii
                             ? 1
                             : ply_type_size(property.count_type.value_or(property.type));
            }
            if (least > 0 && element.count > left / least) {
                problems_.add({path_, element.line},
                              "",
                              "has " + std::to_string(element.count) + " of " +
                                  in_quotes(element.name) + ", but the file is too short for that");
                return false;
            }
        }
        return true;
    }

    std::string_view bytes_;
    const std::string& path_;
    Problems& problems_;
    PlyHeader header_;
    std::string_view line_;
    size_t properties_ = 0;
};

}  // namespace

int64_t ply_type_size(PlyType type) {
    return kTypes[static_cast<size_t>(type)].size;
}

std::optional<PlyHeader> read_ply_header(std::string_view bytes,
                                         const std::string& path,
                                         Problems& problems) {
    return HeaderReader(bytes, path, problems).read();
}

}  // namespace dapple
