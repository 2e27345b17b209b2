#include "night/night_tables.h"

#include <algorithm>
#include <numeric>
#include <sstream>

#include "develop/exposure.h"
#include "night/effects_json.h"
#include "night/night_measures.h"
#include "variants/knob_words.h"
#include "variants/score_variants.h"

namespace dapple {

const std::string kTieRule =
    "Variants with the same place, such as 1=, cannot be told apart: the scores differ from that "
    "of "
    "the first of them by no more than two standard errors of the difference, or by more of them "
    "after few passes.";
const std::string kDifferenceRule =
    "± holds in 68 of 100 cases; without it, the error is not known yet. Errors of differences "
    "take the variants as independent. They share "
    "their random numbers, so most differences are known better; at worst the error is 1.4 times "
    "as "
    "large.";

namespace {

using Json = nlohmann::ordered_json;

Json number_or_null(const std::optional<double>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json wish_json(const NightPlan& plan, const std::string& measure) {
    for (const Wish& wish : plan.file.wishes) {
        if (wish.measure != measure) continue;
        const Json want = wish.kind == WishKind::kNear   ? Json(wish.want)
                          : wish.kind == WishKind::kMost ? Json("most")
                                                         : Json("least");
        return {{"want", want}, {"weight", wish.weight}};
    }
    return nullptr;
}

Json measures_json(const NightPlan& plan, const std::vector<std::string>& measures) {
    Json list = Json::array();
    for (const std::string& measure : measures) {
        const MeasureWords words = words_for_measure(measure);
        list.push_back({{"name", measure},
                        {"words", words.name},
                        {"unit", words.unit},
                        {"per_unit", words.scale},
                        {"more", words.more},
                        {"less", words.less},
                        {"wish", wish_json(plan, measure)}});
    }
    return list;
}

Json values_json(const Variant& variant, bool as_words) {
    Json values = Json::object();
    for (const SetChange& change : variant.changes) {
        values[change.address] =
            as_words ? words_for_level(change.address, change.value) : change.value;
    }
    return values;
}

void add_results(const NightVariantState& state,
                 const std::vector<Measure>& first,
                 const std::vector<std::string>& measures,
                 Json& variant) {
    Json values = Json::object();
    Json errors = Json::object();
    Json shown = Json::object();
    Json differences = Json::object();
    for (size_t m = 0; m < state.measures.size(); ++m) {
        values[measures[m]] = number_or_null(state.measures[m].value);
        errors[measures[m]] = number_or_null(state.measures[m].error);
        shown[measures[m]] = number_or_null(state.measures[m].shown_error());
        if (first.empty()) continue;
        const Measure difference = difference_of(first[m], state.measures[m]);
        differences[measures[m]] = {{"value", number_or_null(difference.value)},
                                    {"stderr", number_or_null(difference.error)}};
    }
    variant["measures"] = values;
    variant["errors"] = errors;
    variant["shown_errors"] = shown;  // the ± of the sheets and the page
    variant["differences"] = differences;
    variant["score"] = number_or_null(state.score.value);
    variant["score_stderr"] = number_or_null(state.score.error);
    variant["rank"] = state.standing.rank > 0 ? Json(state.standing.rank) : Json(nullptr);
    variant["place"] = state.standing.place > 0 ? Json(state.standing.place) : Json(nullptr);
    variant["tied"] = state.standing.tied ? Json(*state.standing.tied) : Json(nullptr);
}

Json variant_json(const NightPlan& plan, const NightVariantState& state, size_t index) {
    const NightVariant& v = plan.variants[index];
    const Json film_of = v.film == index ? Json(nullptr) : Json(plan.variants[v.film].variant.name);
    return {{"name", v.variant.name},
            {"folder", v.variant.folder},
            {"values", values_json(v.variant, false)},
            {"words", values_json(v.variant, true)},
            {"passes", state.state.passes},
            {"noise_percent", number_or_null(state.state.noise_percent)},
            {"film_of", film_of},
            {"failure", state.failure.empty() ? Json(nullptr) : Json(state.failure)},
            {"fingerprint", fingerprint_text(v.fingerprint)}};
}

std::optional<std::string> exposure_in(const nlohmann::json& stats) {
    if (!stats.contains("exposure")) return std::nullopt;
    const nlohmann::json& exposure = stats["exposure"];
    Camera camera;
    camera.f_number = exposure.value("f_number", 0.0F);
    camera.shutter = exposure.value("shutter_s", 0.0F);
    camera.iso = exposure.value("iso", 0.0F);
    return exposure_text(camera);
}

std::string quoted_csv(const std::string& text) {
    std::string quoted = "\"";
    for (const char c : text) quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + "\"";
}

std::string csv_number(const std::optional<double>& value) {
    std::ostringstream text;
    if (value) text << *value;
    return text.str();
}

std::string csv_head(const NightPlan& plan, const std::vector<std::string>& measures) {
    std::string text = "rank,place,tied,name,passes,noise_percent,score,score stderr";
    for (const SetChange& change : plan.variants.front().variant.changes) {
        text += "," + quoted_csv(change.address);
    }
    for (const std::string& m : measures) {
        for (const char* what : {"", " stderr", " difference", " difference stderr"}) {
            text += "," + quoted_csv(m + what);
        }
    }
    return text + "\n";
}

}  // namespace

std::string fingerprint_text(uint64_t fingerprint) {
    std::ostringstream text;
    text << std::hex << fingerprint;
    return text.str();
}

size_t first_variant(const std::vector<NightVariantState>& states) {
    size_t first = states.size();
    for (size_t i = 0; i < states.size(); ++i) {
        if (states[i].standing.rank == 1) return i;
        const bool has_measures = states[i].stats.is_object();
        if (has_measures && first == states.size()) first = i;
    }
    return first;
}

std::vector<size_t> order_of_variants(const std::vector<NightVariantState>& states) {
    std::vector<size_t> order(states.size());
    std::iota(order.begin(), order.end(), size_t{0});
    const auto place = [&](size_t i) {
        const int rank = states[i].standing.rank;
        return rank > 0 ? static_cast<size_t>(rank) : states.size() + 1;
    };
    std::stable_sort(
        order.begin(), order.end(), [&](size_t a, size_t b) { return place(a) < place(b); });
    return order;
}

std::string place_text(const NightVariantState& state) {
    if (state.standing.rank == 0) return "";
    return std::to_string(state.standing.place) + (state.standing.tied.value_or(false) ? "=" : "");
}

std::string night_exposure(const std::vector<NightVariantState>& states) {
    std::optional<std::string> all;
    for (const NightVariantState& s : states) {
        const std::optional<std::string> own = exposure_in(s.stats);
        if (!own) continue;
        if (all && *all != *own) return "";
        all = own;
    }
    return all.value_or("");
}

Json night_json(const NightPlan& plan, const std::vector<NightVariantState>& states) {
    const std::vector<std::string> measures = night_measures(plan, states);
    const size_t first = first_variant(states);
    const std::vector<Measure> first_measures =
        first < states.size() ? states[first].measures : std::vector<Measure>();
    Json variants = Json::array();
    for (size_t i = 0; i < states.size(); ++i) {
        variants.push_back(variant_json(plan, states[i], i));
        add_results(states[i], first_measures, measures, variants.back());
    }
    Json knobs = Json::array();
    for (const SetChange& change : plan.variants.front().variant.changes) {
        knobs.push_back(
            {{"address", change.address}, {"words", words_for_knob(change.address, change.value)}});
    }
    const std::string exposure = night_exposure(states);
    const auto title = first < states.size() ? states[first].stats.value("title", "") : "";
    Json all = {
        {"variants_file", plan.file.path},
        {"title", title},
        {"stem", plan.stem},
        {"exposure", exposure.empty() ? Json(nullptr) : Json(exposure)},
        {"first", first < states.size() ? Json(plan.variants[first].variant.name) : Json(nullptr)},
        {"tie_rule", kTieRule},
        {"difference_rule", kDifferenceRule},
        {"measures", measures_json(plan, measures)},
        {"knobs", knobs}};
    add_effects(plan, states, measures, all);
    all["variants"] = variants;
    return all;
}

std::string night_json_text(const NightPlan& plan, const std::vector<NightVariantState>& states) {
    return night_json(plan, states).dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string night_csv(const NightPlan& plan, const std::vector<NightVariantState>& states) {
    const std::vector<std::string> measures = night_measures(plan, states);
    const size_t first = first_variant(states);
    std::ostringstream text;
    text << csv_head(plan, measures);
    for (size_t i = 0; i < states.size(); ++i) {
        const NightVariantState& s = states[i];
        const bool ranked = s.standing.rank > 0;
        text << (ranked ? std::to_string(s.standing.rank) : "") << ','
             << (ranked ? std::to_string(s.standing.place) : "") << ','
             << (!s.standing.tied   ? ""
                 : *s.standing.tied ? "yes"
                                    : "no")
             << ',' << quoted_csv(plan.variants[i].variant.name) << ',' << s.state.passes << ','
             << csv_number(s.state.noise_percent) << ',' << csv_number(s.score.value) << ','
             << csv_number(s.score.error);
        for (const SetChange& change : plan.variants[i].variant.changes) {
            text << ',' << quoted_csv(change.value);
        }
        for (size_t m = 0; m < measures.size(); ++m) {
            const Measure own = m < s.measures.size() ? s.measures[m] : Measure();
            const Measure of_first = first < states.size() ? states[first].measures[m] : Measure();
            const Measure difference = difference_of(of_first, own);
            text << ',' << csv_number(own.value) << ',' << csv_number(own.error) << ','
                 << csv_number(difference.value) << ',' << csv_number(difference.error);
        }
        text << '\n';
    }
    return text.str();
}

}  // namespace dapple
