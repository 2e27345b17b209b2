#include "night/night_files.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "night/night_measures.h"
#include "night/night_tables.h"
#include "output/safe_file.h"

namespace dapple {

namespace {

using nlohmann::json;

std::string state_file(const std::string& folder) {
    return (std::filesystem::path(folder) / "overnight.json").string();
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

void rank_variants(const NightPlan& plan, std::vector<NightVariantState>& states) {
    const std::vector<std::string> names = night_measures(plan, states);
    const std::vector<Wish>& wishes = plan.file.wishes;
    std::vector<Measure> scores;
    for (NightVariantState& s : states) {
        s.measures.assign(names.size(), Measure::unknown("there is no film yet"));
        for (size_t m = 0; m < names.size() && s.stats.is_object(); ++m) {
            s.measures[m] = m < wishes.size() ? measure_in(s.stats, names[m], wishes[m].place)
                                              : usual_measure_in(s.stats, names[m]);
        }
        s.score = score_of(wishes, s.measures);
        scores.push_back(s.score);
    }
    const std::vector<ScoreRank> standings = rank_scores(scores);
    for (size_t i = 0; i < states.size(); ++i) states[i].standing = standings[i];
}

void write_night_files(const std::string& folder,
                       const NightPlan& plan,
                       const std::vector<NightVariantState>& states) {
    write_text(state_file(folder), night_json_text(plan, states));
    write_text((std::filesystem::path(folder) / "table.csv").string(), night_csv(plan, states));
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
            if (earlier.value("fingerprint", "") != fingerprint_text(v.fingerprint)) {
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
            if (v.value("tied", json()) == true)
                text << ", place " << v["place"].get<int>() << " with others";
        }
        text << '\n';
    }
    return text.str();
}

}  // namespace dapple
