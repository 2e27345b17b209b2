// What a set with haze asks for. General words: the program never says that something is safe.
#include "render/packing/find_cautions.h"

namespace dapple {

namespace {

// Varughese et al. 2005 for the complaints; the rest is common practice, without a source.
const char* const kAlarms =
    "ask the venue and the person responsible for fire safety before the day; only they may "
    "isolate detectors, and local rules come first";
const char* const kBreathing =
    "tell everyone beforehand and ask about asthma and allergies; air the room, keep away from the "
    "outlet, use the least that reads and the fluid that the machine's maker names, and stop when "
    "someone is unwell";
const char* const kFloors =
    "wipe floors, steps and ladders, and keep exits and edges in sight; the machine is hot: keep "
    "it away from cloth, and stay with it";

}  // namespace

std::vector<Caution> find_haze_cautions(const Scene& scene) {
    if (!scene.haze.is_there()) return {};
    return {{"haze", "haze", "it sets off smoke detectors", kAlarms},
            {"haze", "haze", "it can make people cough and their chests tight", kBreathing},
            {"haze", "haze", "its fluid makes floors slippery", kFloors}};
}

}  // namespace dapple
