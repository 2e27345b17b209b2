// The words of an EXR's JSON for what the code names by enumerators. Private to this folder.
#pragma once

#include <stdexcept>
#include <string>
#include <utility>

#include "scene/in_frame.h"
#include "scene/scene.h"

namespace dapple {

inline constexpr std::pair<const char*, SourceKind> kSourceWords[] = {
    {"led", SourceKind::kLed},
    {"tungsten", SourceKind::kTungsten},
    {"daylight", SourceKind::kDaylight},
    {"flat", SourceKind::kFlat}};

inline constexpr std::pair<const char*, ReceptorKind> kReceptorWords[] = {
    {"flat", ReceptorKind::kFlat}, {"dome", ReceptorKind::kDome}};

inline constexpr std::pair<const char*, InFrameKind> kInFrameWords[] = {
    {"fixture", InFrameKind::kFixture},
    {"housing", InFrameKind::kHousing},
    {"stand", InFrameKind::kStand},
    {"glass", InFrameKind::kGlass},
    {"cloth", InFrameKind::kCloth},
    {"flag", InFrameKind::kFlag},
    {"bounce", InFrameKind::kBounce},
    {"cable", InFrameKind::kCable}};

inline constexpr std::pair<const char*, SeenWay> kSeenWords[] = {{"direct", SeenWay::kDirect},
                                                                 {"mirror", SeenWay::kInMirror},
                                                                 {"glass", SeenWay::kThroughGlass}};

inline constexpr std::pair<const char*, MoveWay> kMoveWords[] = {{"left", MoveWay::kLeft},
                                                                 {"right", MoveWay::kRight},
                                                                 {"up", MoveWay::kUp},
                                                                 {"down", MoveWay::kDown}};

inline constexpr const char* kEdgeWords[] = {"left", "right", "top", "bottom"};

template <class Words, class Value>
std::string word_of(const Words& words, Value value) {
    for (const auto& [word, meaning] : words) {
        if (meaning == value) return word;
    }
    throw std::logic_error("an enumerator without a word");
}

// Throws std::invalid_argument for another word.
template <class Words>
auto meaning_of(const Words& words, const std::string& word) {
    for (const auto& [known, meaning] : words) {
        if (known == word) return meaning;
    }
    throw std::invalid_argument("\"" + word + "\" is unknown");
}

}  // namespace dapple
