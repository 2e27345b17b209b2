#include "night/night_files.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <numeric>
#include <sstream>

#include "output/safe_file.h"

namespace dapple {

namespace {

using nlohmann::json;

std::string state_file(const std::string& folder) {
    return (std::filesystem::path(folder) / "overnight.json").string();
}

json number_or_null(const std::optional<double>& value) {
    return value ? json(*value) : json(nullptr);
}

std::string hex(uint64_t value) {
    std::ostringstream text;
    text << std::hex << value;
    return text.str();
}

json variant_json(const NightPlan& plan, const NightVariantState& state, size_t index) {
    const NightVariant& v = plan.variants[index];
    json values = json::object();
    for (const SetChange& change : v.variant.changes) values[change.address] = change.value;
    json measures = json::object();
    for (size_t w = 0; w < state.measures.size(); ++w) {
        measures[plan.file.wishes[w].measure] = number_or_null(state.measures[w]);
    }
    return {{"name", v.variant.name},
            {"folder", v.variant.folder},
            {"values", values},
            {"passes", state.state.passes},
            {"noise_percent", number_or_null(state.state.noise_percent)},
            {"measures", measures},
            {"score", number_or_null(state.score)},
            {"rank", state.rank > 0 ? json(state.rank) : json(nullptr)},
            {"film_of", v.film == index ? json(nullptr) : json(plan.variants[v.film].variant.name)},
            {"failure", state.failure.empty() ? json(nullptr) : json(state.failure)},
            {"fingerprint", hex(v.fingerprint)}};
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

std::string table_csv(const NightPlan& plan, const std::vector<NightVariantState>& states) {
    std::ostringstream text;
    text << "rank,name,passes,noise_percent";
    for (const SetChange& change : plan.variants.front().variant.changes) {
        text << ',' << quoted_csv(change.address);
    }
    for (const Wish& wish : plan.file.wishes) text << ',' << quoted_csv(wish.measure);
    text << '\n';
    for (size_t i = 0; i < states.size(); ++i) {
        const NightVariantState& s = states[i];
        text << (s.rank > 0 ? std::to_string(s.rank) : "") << ','
             << quoted_csv(plan.variants[i].variant.name) << ',' << s.state.passes << ','
             << csv_number(s.state.noise_percent);
        for (const SetChange& change : plan.variants[i].variant.changes) {
            text << ',' << quoted_csv(change.value);
        }
        for (const std::optional<double>& measure : s.measures) text << ',' << csv_number(measure);
        text << '\n';
    }
    return text.str();
}

// The part of the statistics whose name a measure begins with.
const json* part_named(const json& stats, const std::string& name) {
    for (const char* list : {"regions", "meters"}) {
        if (!stats.contains(list)) continue;
        for (const json& part : stats[list]) {
            if (part.value("name", "") == name) return &part;
        }
    }
    return nullptr;
}

json read_json(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) throw FileError(path, "cannot be read");
    json read = json::parse(in, nullptr, false);
    if (!read.is_object() || !read.contains("variants") || !read["variants"].is_array()) {
        throw FileError(path, "is not what dapple overnight has written");
    }
    return read;
}

}  // namespace

std::optional<double> measure_in(const json& stats, const Wish& wish) {
    const size_t dot = wish.measure.rfind('.');
    const std::string name = wish.measure.substr(0, dot);
    const std::string key = dot == std::string::npos ? "" : wish.measure.substr(dot + 1);
    const json* part = name == "frame" ? &stats["luminance"] : part_named(stats, name);
    if (!part) {
        throw FileError(to_string(wish.place),
                        wish.measure + ": the set has no region or meter \"" + name + "\"");
    }
    if (!part->contains(key)) {
        std::vector<std::string> keys;
        for (const auto& item : part->items()) keys.push_back(item.key());
        const std::string nearest = nearest_word(key, keys);
        throw FileError(to_string(wish.place),
                        wish.measure + ": there is no measure \"" + key + "\"" +
                            (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
    }
    const json& value = (*part)[key];
    return value.is_number() ? std::optional<double>(value.get<double>()) : std::nullopt;
}

void rank_variants(const NightPlan& plan, std::vector<NightVariantState>& states) {
    for (NightVariantState& s : states) {
        s.measures.assign(plan.file.wishes.size(), std::nullopt);
        s.score.reset();
        s.rank = 0;
        if (s.stats.is_null() || plan.file.wishes.empty()) continue;
        double score = 0;
        bool known = true;
        for (size_t w = 0; w < s.measures.size(); ++w) {
            const Wish& wish = plan.file.wishes[w];
            s.measures[w] = measure_in(s.stats, wish);
            known = known && s.measures[w].has_value();
            if (!s.measures[w]) continue;
            const double value = *s.measures[w];
            const double distance = wish.kind == WishKind::kNear   ? std::abs(value - wish.want)
                                    : wish.kind == WishKind::kMost ? -value
                                                                   : value;
            score += wish.weight * distance;
        }
        if (known) s.score = score;
    }
    std::vector<size_t> order(states.size());
    std::iota(order.begin(), order.end(), size_t{0});
    std::erase_if(order, [&](size_t i) { return !states[i].score; });
    std::stable_sort(order.begin(), order.end(), [&](size_t a, size_t b) {
        return *states[a].score < *states[b].score;
    });
    for (size_t r = 0; r < order.size(); ++r) states[order[r]].rank = static_cast<int>(r + 1);
}

void write_night_files(const std::string& folder,
                       const NightPlan& plan,
                       const std::vector<NightVariantState>& states) {
    json variants = json::array();
    for (size_t i = 0; i < states.size(); ++i) variants.push_back(variant_json(plan, states[i], i));
    const json all = {{"variants_file", plan.file.path}, {"variants", variants}};
    write_text(state_file(folder), all.dump(2) + "\n");
    write_text((std::filesystem::path(folder) / "table.csv").string(), table_csv(plan, states));
}

std::vector<NightState> read_night_states(const std::string& folder, const NightPlan& plan) {
    std::vector<NightState> states(plan.variants.size());
    const std::string path = state_file(folder);
    if (!std::filesystem::exists(path)) return states;
    const json all = read_json(path);
    for (const json& earlier : all["variants"]) {
        for (size_t i = 0; i < states.size(); ++i) {
            const NightVariant& v = plan.variants[i];
            if (earlier.value("name", "") != v.variant.name) continue;
            if (earlier.value("passes", 0) == 0) continue;
            if (earlier.value("fingerprint", "") != hex(v.fingerprint)) {
                throw FileError(path,
                                "variant \"" + v.variant.name +
                                    "\" was made from another set, model, kit, size or seed; "
                                    "--restart makes all variants anew");
            }
            states[i].passes = earlier.value("passes", 0);
            const json& noise = earlier["noise_percent"];
            if (noise.is_number()) states[i].noise_percent = noise.get<double>();
        }
    }
    return states;
}

std::string status_text(const std::string& folder) {
    const json all = read_json(state_file(folder));
    std::ostringstream text;
    for (const json& v : all["variants"]) {
        text << v.value("name", "") << ": ";
        if (v["failure"].is_string()) {
            text << "failed: " << v["failure"].get<std::string>();
        } else {
            text << v.value("passes", 0) << " passes";
            if (v["noise_percent"].is_number()) {
                text << ", noise " << std::round(10 * v["noise_percent"].get<double>()) / 10
                     << " %";
            }
            if (v["rank"].is_number()) text << ", rank " << v["rank"].get<int>();
        }
        text << '\n';
    }
    return text.str();
}

}  // namespace dapple
