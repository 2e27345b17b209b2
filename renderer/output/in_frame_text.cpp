#include "output/in_frame_text.h"

#include "output/in_frame_json.h"
#include "output/json_parts.h"
#include "output/text_table.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

const char* kind_word(InFrameKind kind) {
    constexpr std::array<const char*, 8> kWords = {
        "fixture", "housing", "stand", "glass", "cloth", "flag", "bounce", "cable"};
    return kWords[static_cast<size_t>(kind)];
}

const char* way_word(SeenWay way) {
    constexpr std::array<const char*, 3> kWords = {"direct", "mirror", "glass"};
    return kWords[static_cast<size_t>(way)];
}

const char* move_word(MoveWay way) {
    constexpr std::array<const char*, 4> kWords = {"left", "right", "up", "down"};
    return kWords[static_cast<size_t>(way)];
}

constexpr std::array<const char*, 4> kEdges = {"left", "right", "top", "bottom"};

Json move_json(const std::optional<Move>& move) {
    if (!move) return nullptr;
    return {{"way", move_word(move->way)}, {"distance_m", move->distance}};
}

Json thing_json(const InFrameThing& thing) {
    Json touches = Json::array();
    for (size_t i = 0; i < kEdges.size(); ++i) {
        if (thing.touches[i]) touches.push_back(kEdges[i]);
    }
    Json move_out = nullptr;
    if (thing.of_thing || thing.of_camera) {
        move_out = {{"thing", move_json(thing.of_thing)}, {"camera", move_json(thing.of_camera)}};
    }
    return {{"name", thing.name},
            {"kind", kind_word(thing.kind)},
            {"seen", way_word(thing.way)},
            {"pixels", thing.pixels},
            {"share", thing.share},
            {"box_px", {thing.box.x, thing.box.y, thing.box.z, thing.box.w}},
            {"touches", touches},
            {"move_out", move_out}};
}

std::string move_text(const std::string& what, const std::optional<Move>& move) {
    if (!move) return "";
    return formatted("%s %.2f m %s", what.c_str(), move->distance, move_word(move->way));
}

std::string moves_text(const InFrameThing& thing) {
    const std::string own = move_text("move it", thing.of_thing);
    const std::string camera =
        move_text(own.empty() ? "move the camera" : "the camera", thing.of_camera);
    if (own.empty() && camera.empty()) {
        const bool could_move = thing.way == SeenWay::kDirect && thing.kind != InFrameKind::kCable;
        return could_move ? "; no move within the room takes it out" : "";
    }
    return "; " + own + (own.empty() || camera.empty() ? "" : ", or ") + camera;
}

std::string edges_text(const InFrameThing& thing) {
    std::string text;
    for (size_t i = 0; i < kEdges.size(); ++i) {
        if (thing.touches[i])
            text += (text.empty() ? ", at the " : " and ") + std::string(kEdges[i]);
    }
    return text.empty() ? text : text + " edge";
}

std::string seen_text(SeenWay way) {
    if (way == SeenWay::kInMirror) return " in a mirror";
    return way == SeenWay::kThroughGlass ? " through glass" : "";
}

std::string line_of(const InFrameThing& thing) {
    return std::string(kind_word(thing.kind)) + " \"" + thing.name + "\"" + seen_text(thing.way) +
           formatted(": %lld px (%.2g %%), x %d to %d, y %d to %d",
                     static_cast<long long>(thing.pixels),
                     100 * thing.share,
                     thing.box.x,
                     thing.box.z,
                     thing.box.y,
                     thing.box.w) +
           edges_text(thing) + moves_text(thing) + "\n";
}

}  // namespace

Json in_frame_json(const InFrame& frame) {
    Json list = Json::array();
    for (const InFrameThing& thing : frame.things) list.push_back(thing_json(thing));
    return list;
}

std::string in_frame_json_text(const InFrame& frame) {
    return json_text(in_frame_json(frame));
}

std::string in_frame_lines(const InFrame& frame) {
    std::string text;
    for (const InFrameThing& thing : frame.things) text += "in the frame: " + line_of(thing);
    return text;
}

Picture mask_picture(const InFrame& frame) {
    Picture picture{frame.width, frame.height, {}};
    picture.pixels.reserve(frame.mask.size());
    for (const float value : frame.mask) picture.pixels.emplace_back(value);
    return picture;
}

}  // namespace dapple
