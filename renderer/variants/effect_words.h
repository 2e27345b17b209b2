// Main effects as sentences that a photographer reads in the morning.
#pragma once

#include <string>
#include <vector>

#include "variants/main_effects.h"

namespace dapple {

// "ribbed jar turn with moon cct", of a factor's addresses.
std::string words_for_factor(const Factor& factor);

// What moved the measure most: "ribbed jar turn moved back wall texture most: 0.42 at 0° to 0.71 at
// 15°, a difference of 0.29 ± 0.02 stops." Or that nothing did beyond the noise.
std::string most_moved_sentence(const std::string& measure,
                                const std::vector<Factor>& factors,
                                const MainEffects& effects);

// How much of the differences the knobs explain, each by itself; "" if that is not known.
std::string explained_sentence(const MainEffects& effects);

// A sentence for each group of knobs that cannot be told apart.
std::vector<std::string> apart_sentences(const std::vector<Factor>& factors,
                                         const MainEffects& effects);

}  // namespace dapple
