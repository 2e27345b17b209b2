// Regions, sides of the figure, ratios and fixtures in the JSON files of statistics and judgement.
// What is not known is null, with the reason under `why`. Private to this folder.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "judge/judge_film.h"

namespace dapple {

nlohmann::ordered_json regions_json(const std::vector<RegionJudgement>& regions);
nlohmann::ordered_json ratios_json(const std::vector<Ratio>& ratios);
nlohmann::ordered_json tones_json(const Tones& tones);
nlohmann::ordered_json fixtures_json(const std::vector<FixtureShare>& fixtures);
nlohmann::ordered_json lamp_faces_json(const LampFacesJudgement& faces);
// Null for no reason.
nlohmann::ordered_json reason_json(const std::string& why);

}  // namespace dapple
