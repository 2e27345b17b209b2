// One small model in every kind of file: a card folded along its middle, two quads, with colours at
// its vertices or a picture.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <string>
#include <vector>

namespace dapple::test {

struct Card {
    std::vector<std::array<float, 3>> positions{
        {0, 0, 0}, {1, 0, 0.25F}, {2, 0, 0}, {0, 1.5F, 0}, {1, 1.5F, 0.25F}, {2, 1.5F, 0}};
    std::vector<std::array<uint8_t, 3>> colours{
        {255, 0, 0}, {10, 200, 30}, {0, 0, 255}, {128, 128, 128}, {255, 255, 0}, {1, 2, 3}};
    std::vector<std::array<float, 2>> uvs{
        {0, 0}, {0.5F, 0}, {1, 0}, {0, 0.75F}, {0.5F, 0.75F}, {1, 0.75F}};
    std::vector<std::array<int, 4>> quads{{0, 1, 4, 3}, {1, 2, 5, 4}};
};

enum class Paint { kColours, kPicture };  // the picture is card.png

inline double linear_of(uint8_t code) {  // IEC 61966-2-1
    const double x = code / 255.0;
    return x <= 0.04045 ? x / 12.92 : std::pow((x + 0.055) / 1.055, 2.4);
}

inline std::string words(std::initializer_list<double> numbers) {
    std::string text;
    for (const double number : numbers) text += std::to_string(number) + " ";
    return text;
}

inline std::string obj_card(Paint paint) {
    const Card card;
    std::string text = paint == Paint::kPicture ? "mtllib card.mtl\n" : "";
    for (size_t i = 0; i < 6; ++i) {
        const auto& [x, y, z] = card.positions[i];
        text += "v " + words({x, y, z});
        const auto& [r, g, b] = card.colours[i];
        if (paint == Paint::kColours) text += words({r / 255.0, g / 255.0, b / 255.0});
        text += "\nvt " + words({card.uvs[i][0], card.uvs[i][1]}) + "\n";
    }
    text += "usemtl card\n";
    for (const auto& quad : card.quads) {
        text += "f";
        for (const int corner : quad) {
            const std::string one = std::to_string(corner + 1);
            text += " " + one + "/" + one;
        }
        text += "\n";
    }
    return text;
}

template <class Number>
std::string bytes_of(Number number, bool big_endian = false) {
    std::string bytes(sizeof number, '\0');
    std::memcpy(bytes.data(), &number, sizeof number);
    return big_endian ? std::string(bytes.rbegin(), bytes.rend()) : bytes;
}

// `format` is ascii, binary_little_endian or binary_big_endian. With `of_faces` the faces have the
// texture coordinates, else the vertices.
inline std::string ply_card(const std::string& format, Paint paint, bool of_faces = false) {
    const Card card;
    const bool ascii = format == "ascii";
    const bool big = format == "binary_big_endian";
    const bool picture = paint == Paint::kPicture;
    std::string text = "ply\nformat " + format + " 1.0\n";
    if (picture) text += "comment TextureFile card.png\n";
    text += "element vertex 6\nproperty float x\nproperty double y\nproperty float z\n";
    text += picture ? "" : "property uchar red\nproperty uchar green\nproperty uchar blue\n";
    text += picture && !of_faces ? "property float s\nproperty float t\n" : "";
    text += "element face 2\nproperty list uchar int vertex_indices\n";
    text += of_faces ? "property list uchar float texcoord\n" : "";
    text += "end_header\n";
    const auto add = [&](auto number) {
        text += ascii ? std::to_string(number) + " " : bytes_of(number, big);
    };
    for (size_t i = 0; i < 6; ++i) {
        add(card.positions[i][0]);
        add(double{card.positions[i][1]});
        add(card.positions[i][2]);
        for (size_t k = 0; k < 3 && !picture; ++k) add(card.colours[i][k]);
        for (size_t k = 0; k < 2 && picture && !of_faces; ++k) add(card.uvs[i][k]);
        if (ascii) text += "\n";
    }
    for (const auto& quad : card.quads) {
        add(uint8_t{4});
        for (const int corner : quad) add(int32_t{corner});
        if (of_faces) add(uint8_t{8});
        for (const int corner : quad) {
            for (size_t k = 0; k < 2 && of_faces; ++k)
                add(card.uvs[static_cast<size_t>(corner)][k]);
        }
        if (ascii) text += "\n";
    }
    return text;
}

inline std::string base64(const std::string& bytes) {  // RFC 4648
    const char* const digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    for (size_t i = 0; i < bytes.size(); i += 3) {
        uint32_t bits = 0;
        for (size_t k = 0; k < 3; ++k) {
            bits = bits << 8U | (i + k < bytes.size() ? static_cast<uint8_t>(bytes[i + k]) : 0U);
        }
        for (size_t k = 0; k < 4; ++k) {
            text += i + k > bytes.size() ? '=' : digits[bits >> (18U - 6U * k) & 63U];
        }
    }
    return text;
}

// The numbers of the card one after the other: positions, colours of 16 bits, texture coordinates
// with v downwards, indices of 16 bits.
inline std::string card_buffer() {
    const Card card;
    std::string bytes;
    for (const auto& position : card.positions) {
        // Stored a metre to the side and turned; the node turns it back.
        for (const float x : {position[2], position[1], -position[0]}) bytes += bytes_of(x);
    }
    for (const auto& colour : card.colours) {
        for (const uint8_t code : colour) {
            bytes += bytes_of(static_cast<uint16_t>(std::lround(65535 * linear_of(code))));
        }
        bytes += bytes_of(uint16_t{65535});
    }
    for (const auto& uv : card.uvs) bytes += bytes_of(uv[0]) + bytes_of(1 - uv[1]);
    for (const auto& q : card.quads) {
        for (const int corner : {q[0], q[1], q[2], q[0], q[2], q[3]}) {
            bytes += bytes_of(static_cast<uint16_t>(corner));
        }
    }
    return bytes;
}

// The JSON of a glTF file whose buffer has this uri; without one it is a .glb's.
inline std::string gltf_card(Paint paint, const std::string& uri) {
    const bool picture = paint == Paint::kPicture;
    const std::string colours = picture ? "" : R"(, "COLOR_0": 1)";
    const std::string base = picture ? R"(, "baseColorTexture": {"index": 0})" : "";
    const std::string link = uri.empty() ? "" : R"(, "uri": ")" + uri + "\"";
    return R"({"asset": {"version": "2.0"}, "scene": 0, "scenes": [{"nodes": [0]}],
 "nodes": [{"children": [1], "translation": [0, 0, 0]},
           {"mesh": 0, "rotation": [0, -0.70710678118654757, 0, 0.70710678118654757]}],
 "meshes": [{"primitives": [{"attributes": {"POSITION": 0, "TEXCOORD_0": 2)" +
           colours + R"(}, "indices": 3, "material": 0}]}],
 "materials": [{"name": "card", "pbrMetallicRoughness": {"metallicFactor": 0)" +
           base + R"(}}],
 "textures": [{"source": 0}], "images": [{"uri": "card.png"}],
 "accessors": [{"bufferView": 0, "componentType": 5126, "type": "VEC3", "count": 6},
               {"bufferView": 1, "componentType": 5123, "type": "VEC4", "count": 6,
                "normalized": true},
               {"bufferView": 2, "componentType": 5126, "type": "VEC2", "count": 6},
               {"bufferView": 3, "componentType": 5123, "type": "SCALAR", "count": 12}],
 "bufferViews": [{"buffer": 0, "byteLength": 72},
                 {"buffer": 0, "byteOffset": 72, "byteLength": 48},
                 {"buffer": 0, "byteOffset": 120, "byteLength": 48},
                 {"buffer": 0, "byteOffset": 168, "byteLength": 24}],
 "buffers": [{"byteLength": 192)" +
           link + "}]}";
}

inline std::string data_uri(const std::string& bytes) {
    return "data:application/octet-stream;base64," + base64(bytes);
}

inline std::string glb_of(std::string json, const std::string& binary) {
    json.resize((json.size() + 3) / 4 * 4, ' ');
    const auto size = [](size_t n) { return bytes_of(static_cast<uint32_t>(n)); };
    return "glTF" + bytes_of(uint32_t{2}) + size(28 + json.size() + binary.size()) +
           size(json.size()) + "JSON" + json + size(binary.size()) + std::string("BIN\0", 4) +
           binary;
}

}  // namespace dapple::test
