#include "variants/effect_words.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <set>

#include "judge/measure.h"
#include "variants/knob_words.h"

namespace dapple {

namespace {

// "a, b and c"
std::string listed(const std::vector<std::string>& words) {
    std::string text;
    for (size_t i = 0; i < words.size(); ++i) {
        const bool is_last = i + 1 == words.size();
        text += (i == 0 ? "" : is_last ? " and " : ", ") + words[i];
    }
    return text;
}

std::string capitalised(std::string text) {
    if (!text.empty())
        text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text;
}

// "0.71 at 15°", "0.71 with it", "0.71 with bottle-amber".
std::string at_level(const std::string& level) {
    if (level == "with" || level == "without") return " " + level + " it";
    const bool is_number = level.find_first_of("0123456789") <= level.find_first_not_of("+-.");
    return (is_number ? " at " : " with ") + level;
}

std::string percent(double share) {
    if (share > 0 && share < 0.01) return "less than 1 %";
    return std::to_string(std::lround(100 * share)) + " %";
}

const KnobEffect* most_moved(const MainEffects& effects) {
    const KnobEffect* most = nullptr;
    for (const KnobEffect& knob : effects.knobs) {
        if (!knob.beyond_noise) continue;
        if (!most || knob.moved() > most->moved()) most = &knob;
    }
    return most;
}

// Where no knob moved the measure by more than the noise, what the knobs explain is no news.
std::string unmoved_sentence(const MainEffects& effects, double rest) {
    if (!effects.noise_share) return "";
    const double acting = rest - *effects.noise_share;
    if (acting < 0.005) {
        return "The differences between the variants are within their errors; more passes may "
               "tell.";
    }
    return percent(acting) + " of the differences between the variants come from knobs that act " +
           "together or not in proportion.";
}

}  // namespace

std::string words_for_factor(const Factor& factor) {
    return listed(factor.knobs);
}

std::string most_moved_sentence(const std::string& measure,
                                const std::vector<Factor>& factors,
                                const MainEffects& effects) {
    const MeasureWords words = words_for_measure(measure);
    const std::string unit = words.unit.empty() ? "" : " " + words.unit;
    if (effects.variants < 2) return capitalised(words.name) + " is not known of two variants yet.";
    const KnobEffect* most = most_moved(effects);
    if (!most) {
        const bool knows = std::any_of(effects.knobs.begin(),
                                       effects.knobs.end(),
                                       [](const KnobEffect& k) { return k.moved_error; });
        return knows ? "No knob moved " + words.name + " beyond the noise."
                     : "What moved " + words.name + " is not known: its error is not known.";
    }
    const std::optional<double> shown = printed_error(most->moved_error, effects.passes);
    const std::optional<double> error = shown ? std::optional(*shown * words.scale) : std::nullopt;
    // Without its own error, to the digits that the difference has.
    const auto level = [&](size_t l) {
        const LevelEffect& at = most->levels[l];
        const std::string figure = figure_text(at.mean * words.scale, error);
        return figure.substr(0, figure.find(" ± ")) + at_level(at.level);
    };
    return capitalised(words_for_factor(factors[most->factor])) + " moved " + words.name +
           " most: " + level(most->low) + " to " + level(most->high) + ", a difference of " +
           figure_text(most->moved() * words.scale, error) + unit + ".";
}

std::string explained_sentence(const MainEffects& effects) {
    if (!effects.unexplained_share) return "";
    const double rest = *effects.unexplained_share;
    if (!most_moved(effects)) return unmoved_sentence(effects, rest);
    std::string text = "The knobs, each by itself, explain " + percent(1 - rest) +
                       " of the differences between the variants";
    if (!effects.noise_share) return text + ".";
    const double noise = std::min(rest, *effects.noise_share);
    if (rest < 0.005) return text + ".";
    text += "; noise explains up to " + percent(noise);
    const double acting = rest - noise;
    if (acting < 0.005) return text + ".";
    return text + ", and " + percent(acting) +
           " come from knobs that act together or not in proportion.";
}

std::vector<std::string> apart_sentences(const std::vector<Factor>& factors,
                                         const MainEffects& effects) {
    std::vector<std::string> sentences;
    std::set<std::set<size_t>> told;
    for (const KnobEffect& knob : effects.knobs) {
        if (knob.apart.empty()) continue;
        std::set<size_t> group(knob.apart.begin(), knob.apart.end());
        group.insert(knob.factor);
        if (!told.insert(group).second) continue;
        std::vector<std::string> words;
        for (const size_t f : group) words.push_back(words_for_factor(factors[f]));
        sentences.push_back(capitalised(listed(words)) +
                            " cannot be told apart: no variant changes one without the others.");
    }
    for (const Factor& factor : factors) {
        if (!factor.has_several_knobs) continue;
        sentences.push_back(capitalised(words_for_factor(factor)) +
                            " cannot be told apart: they changed together.");
    }
    return sentences;
}

}  // namespace dapple
