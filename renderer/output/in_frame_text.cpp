#include "output/in_frame_text.h"

#include "base/number_words.h"
#include "output/film_words.h"
#include "output/in_frame_json.h"
#include "output/json_parts.h"
#include "output/text_table.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

Json move_json(const std::optional<Move>& move) {
    if (!move) return nullptr;
    return {{"way", word_of(kMoveWords, move->way)}, {"distance_m", move->distance}};
}

Json thing_json(const InFrameThing& thing) {
    Json touches = Json::array();
    for (size_t i = 0; i < thing.touches.size(); ++i) {
        if (thing.touches[i]) touches.push_back(kEdgeWords[i]);
    }
    Json move_out = nullptr;
    if (thing.of_thing || thing.of_camera) {
        move_out = {{"thing", move_json(thing.of_thing)}, {"camera", move_json(thing.of_camera)}};
    }
    return {{"name", thing.name},
            {"kind", word_of(kInFrameWords, thing.kind)},
            {"seen", word_of(kSeenWords, thing.way)},
            {"pixels", thing.pixels},
            {"share", thing.share},
            {"box_px", {thing.box.x, thing.box.y, thing.box.z, thing.box.w}},
            {"touches", touches},
            {"move_out", move_out}};
}

std::optional<Move> parse_move(const Json& json) {
    if (json.is_null()) return std::nullopt;
    return Move{meaning_of(kMoveWords, json.at("way")), json.at("distance_m")};
}

InFrameThing parse_thing(const Json& json) {
    InFrameThing thing;
    thing.name = json.at("name");
    thing.kind = meaning_of(kInFrameWords, json.at("kind"));
    thing.way = meaning_of(kSeenWords, json.at("seen"));
    thing.pixels = json.at("pixels");
    thing.share = json.at("share");
    for (int i = 0; i < 4; ++i) thing.box[i] = json.at("box_px").at(static_cast<size_t>(i));
    for (const Json& edge : json.at("touches")) {
        for (size_t i = 0; i < thing.touches.size(); ++i) {
            if (edge == kEdgeWords[i]) thing.touches[i] = true;
        }
    }
    const Json& moves = json.at("move_out");
    if (moves.is_null()) return thing;
    thing.of_thing = parse_move(moves.at("thing"));
    thing.of_camera = parse_move(moves.at("camera"));
    return thing;
}

std::string move_text(const std::string& what, const std::optional<Move>& move) {
    if (!move) return "";
    return what + formatted(" %.2f m ", move->distance) + word_of(kMoveWords, move->way);
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
    for (size_t i = 0; i < thing.touches.size(); ++i) {
        if (thing.touches[i])
            text += std::string(text.empty() ? ", at the " : " and ") + kEdgeWords[i];
    }
    return text.empty() ? text : text + " edge";
}

bool is_same_thing(const InFrameThing& a, const InFrameThing& b) {
    return a.kind == b.kind && a.name == b.name;
}

// Each thing has one line: for the direct way in which it is seen, as only that can be moved out of
// the frame; without one for the way in which most of it is seen.
bool has_line(const InFrame& frame, const InFrameThing& thing) {
    if (thing.way == SeenWay::kDirect) return true;
    const InFrameThing* first = nullptr;
    for (const InFrameThing& other : frame.things) {
        if (!is_same_thing(other, thing)) continue;
        if (other.way == SeenWay::kDirect) return false;
        if (first == nullptr) first = &other;
    }
    return first == &thing;
}

std::string seen_text(SeenWay way) {
    if (way == SeenWay::kInMirror) return " in a mirror";
    return way == SeenWay::kThroughGlass ? " through glass" : "";
}

// ", 278 px through glass" for each other way in which the thing is seen.
std::string other_ways_text(const InFrame& frame, const InFrameThing& thing) {
    std::string text;
    for (const InFrameThing& other : frame.things) {
        if (&other == &thing || !is_same_thing(other, thing)) continue;
        if (other.way == SeenWay::kDirect) continue;  // another thing of the same name
        text +=
            formatted(", and %lld px", static_cast<long long>(other.pixels)) + seen_text(other.way);
    }
    return text;
}

std::string line_of(const InFrame& frame, const InFrameThing& thing) {
    return word_of(kInFrameWords, thing.kind) + " \"" + thing.name + "\"" + seen_text(thing.way) +
           formatted(": %lld px (%s %%), x %d to %d, y %d to %d",
                     static_cast<long long>(thing.pixels),
                     round_number(100 * thing.share, 2).c_str(),
                     thing.box.x,
                     thing.box.z,
                     thing.box.y,
                     thing.box.w) +
           edges_text(thing) + other_ways_text(frame, thing) + moves_text(thing) + "\n";
}

}  // namespace

Json in_frame_json(const InFrame& frame) {
    if (frame.width == 0) return nullptr;
    Json list = Json::array();
    for (const InFrameThing& thing : frame.things) list.push_back(thing_json(thing));
    return list;
}

InFrame parse_in_frame(const Json& json, int width, int height) {
    InFrame frame;
    if (json.is_null()) return frame;
    frame.width = width;
    frame.height = height;
    for (const Json& thing : json) frame.things.push_back(parse_thing(thing));
    return frame;
}

std::string in_frame_json_text(const InFrame& frame) {
    return json_text(in_frame_json(frame));
}

std::string in_frame_lines(const InFrame& frame) {
    std::string text;
    for (const InFrameThing& thing : frame.things) {
        if (has_line(frame, thing)) text += "in the frame: " + line_of(frame, thing);
    }
    return text;
}

Picture mask_picture(const InFrame& frame) {
    Picture picture{frame.width, frame.height, {}};
    picture.pixels.reserve(frame.mask.size());
    for (const float value : frame.mask) picture.pixels.emplace_back(value);
    return picture;
}

}  // namespace dapple
