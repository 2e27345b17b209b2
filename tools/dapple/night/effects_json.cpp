#include "night/effects_json.h"

#include "variants/effect_words.h"
#include "variants/main_effects.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

Json number_or_null_of(const std::optional<double>& value) {
    return value ? Json(*value) : Json(nullptr);
}

std::vector<Factor> factors_of(const NightPlan& plan) {
    std::vector<Variant> variants;
    for (const NightVariant& v : plan.variants) variants.push_back(v.variant);
    return make_factors(plan.file, variants);
}

MainEffects effects_of(const NightPlan& plan,
                       const std::vector<NightVariantState>& states,
                       const std::vector<Factor>& factors,
                       size_t measure) {
    std::vector<Measure> measures;
    std::vector<size_t> films;
    for (size_t i = 0; i < states.size(); ++i) {
        const bool known = measure < states[i].measures.size();
        measures.push_back(known ? states[i].measures[measure] : Measure());
        films.push_back(plan.variants[i].film);
    }
    return fit_main_effects(factors, measures, films);
}

Json knob_json(const KnobEffect& knob, const std::vector<Factor>& factors, int passes) {
    const Factor& factor = factors[knob.factor];
    Json levels = Json::array();
    for (const LevelEffect& level : knob.levels) {
        levels.push_back({{"level", level.level},
                          {"mean", level.mean},
                          {"stderr", number_or_null_of(level.error)},
                          {"shown_error", number_or_null_of(printed_error(level.error, passes))}});
    }
    Json apart = Json::array();
    for (const size_t other : knob.apart) apart.push_back(words_for_factor(factors[other]));
    const bool known = !knob.levels.empty();
    return {{"addresses", factor.addresses},
            {"words", words_for_factor(factor)},
            {"straight_line", factor.is_line()},
            {"levels", levels},
            {"moved", known ? Json(knob.moved()) : Json(nullptr)},
            {"moved_stderr", number_or_null_of(knob.moved_error)},
            {"moved_shown_error", number_or_null_of(printed_error(knob.moved_error, passes))},
            {"beyond_noise", knob.moved_error ? Json(knob.beyond_noise) : Json(nullptr)},
            {"cannot_be_told_from", apart}};
}

}  // namespace

void add_effects(const NightPlan& plan,
                 const std::vector<NightVariantState>& states,
                 const std::vector<std::string>& measures,
                 Json& all) {
    const std::vector<Factor> factors = factors_of(plan);
    Json list = Json::array();
    std::vector<std::string> apart;
    for (size_t m = 0; m < measures.size(); ++m) {
        const MainEffects effects = effects_of(plan, states, factors, m);
        if (effects.variants == 0) continue;
        Json knobs = Json::array();
        for (const KnobEffect& knob : effects.knobs) {
            knobs.push_back(knob_json(knob, factors, effects.passes));
        }
        list.push_back({{"measure", measures[m]},
                        {"variants", effects.variants},
                        {"mean", effects.mean},
                        {"unexplained_share", number_or_null_of(effects.unexplained_share)},
                        {"noise_share", number_or_null_of(effects.noise_share)},
                        {"sentence", most_moved_sentence(measures[m], factors, effects)},
                        {"explained", explained_sentence(effects)},
                        {"knobs", knobs}});
        if (apart.empty()) apart = apart_sentences(factors, effects);
    }
    all["effects"] = list;
    all["cannot_be_told_apart"] = apart;
}

std::vector<std::string> effect_sentences(const NightPlan& plan,
                                          const std::vector<NightVariantState>& states) {
    std::vector<std::string> sentences;
    const std::vector<Factor> factors = factors_of(plan);
    if (factors.empty()) return sentences;
    std::vector<std::string> apart;
    for (size_t w = 0; w < plan.file.wishes.size(); ++w) {
        const MainEffects effects = effects_of(plan, states, factors, w);
        if (effects.variants < 2) continue;
        const std::string explained = explained_sentence(effects);
        sentences.push_back(most_moved_sentence(plan.file.wishes[w].measure, factors, effects) +
                            (explained.empty() ? "" : " " + explained));
        if (apart.empty()) apart = apart_sentences(factors, effects);
    }
    sentences.insert(sentences.end(), apart.begin(), apart.end());
    return sentences;
}

}  // namespace dapple
