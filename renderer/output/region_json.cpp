#include "output/region_json.h"

#include "judge/words.h"
#include "output/json_parts.h"

namespace dapple {

namespace {

using Json = nlohmann::ordered_json;

// Adds the reason of a measure that has no value.
void add_reason(Json& reasons, const std::string& key, const Measure& measure) {
    if (!measure) reasons[key] = measure.why;
}

Json word_json(const Measure& measure, std::string (*word_of)(double)) {
    return measure ? Json(word_of(*measure)) : Json(nullptr);
}

Json judged_region_json(const RegionJudgement& region) {
    const Pattern& p = region.pattern;
    Json reasons = Json::object();
    add_reason(reasons, "mean_luminance", region.mean_luminance);
    add_reason(reasons, "uniformity", region.uniformity);
    add_reason(reasons, "texture_stops", p.texture_stops);
    add_reason(reasons, "patch_px", p.patch_px);
    add_reason(reasons, "patch_cm", p.patch_cm);
    add_reason(reasons, "cover", p.cover);
    add_reason(reasons, "deep_shadow_share", region.tones.deep_shadow);
    add_reason(reasons, "clipped_share", region.tones.clipped);
    return {{"name", region.name},
            {"pixels", region.pixels},
            {"mean_luminance", json_number(region.mean_luminance.value)},
            {"mean_stderr", json_number(region.mean_luminance.error)},
            {"uniformity", json_number(region.uniformity.value)},
            {"uniformity_stderr", json_number(region.uniformity.error)},
            {"texture_stops", json_number(p.texture_stops.value)},
            {"texture_stderr", json_number(p.texture_stops.error)},
            {"texture_word", word_json(p.texture_stops, texture_word)},
            {"patch_cm", json_number(p.patch_cm.value)},
            {"patch_cm_stderr", json_number(p.patch_cm.error)},
            {"patch_px", json_number(p.patch_px.value)},
            {"cover", json_number(p.cover.value)},
            {"cover_stderr", json_number(p.cover.error)},
            {"deep_shadow_share", json_number(region.tones.deep_shadow.value)},
            {"deep_shadow_stderr", json_number(region.tones.deep_shadow.error)},
            {"deep_shadow_word", word_json(region.tones.deep_shadow, shadow_word)},
            {"clipped_share", json_number(region.tones.clipped.value)},
            {"clipped_stderr", json_number(region.tones.clipped.error)},
            {"clipped_word", word_json(region.tones.clipped, clipping_word)},
            {"block_px", p.block_px > 0 ? Json(p.block_px) : Json(nullptr)},
            {"why", reasons.empty() ? Json(nullptr) : reasons}};
}

}  // namespace

nlohmann::ordered_json reason_json(const std::string& why) {
    return why.empty() ? Json(nullptr) : Json(why);
}

nlohmann::ordered_json regions_json(const std::vector<RegionJudgement>& regions) {
    Json list = Json::array();
    for (const RegionJudgement& region : regions) list.push_back(judged_region_json(region));
    return list;
}

nlohmann::ordered_json ratios_json(const std::vector<Ratio>& ratios) {
    Json list = Json::array();
    for (const Ratio& r : ratios) {
        list.push_back({{"name", r.from + ", " + r.name},
                        {"value", json_number(r.value.value)},
                        {"stderr", json_number(r.value.error)},
                        {"definition", r.definition},
                        {"word", r.value ? Json(ratio_word(r.value)) : Json(nullptr)},
                        {"why", r.value ? Json(nullptr) : Json(r.value.why)}});
    }
    return list;
}

nlohmann::ordered_json tones_json(const Tones& tones) {
    return {{"deep_shadow_share", json_number(tones.deep_shadow.value)},
            {"deep_shadow_stderr", json_number(tones.deep_shadow.error)},
            {"clipped_share", json_number(tones.clipped.value)},
            {"clipped_stderr", json_number(tones.clipped.error)},
            {"why", reason_json(tones.deep_shadow.why)}};
}

nlohmann::ordered_json fixtures_json(const std::vector<FixtureShare>& fixtures) {
    Json list = Json::array();
    for (const FixtureShare& f : fixtures) {
        list.push_back({{"name", f.name},
                        {"share", json_number(f.share)},
                        {"mean_luminance", json_number(f.mean_luminance)}});
    }
    return list;
}

nlohmann::ordered_json lamp_faces_json(const LampFacesJudgement& faces) {
    return {{"px", faces.pixels}, {"share", json_number(faces.share)}};
}

}  // namespace dapple
